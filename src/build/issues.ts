/** Problems out of what zod reports: one for each unknown name, each with its place and the value as it stands in the file. */
import type { z } from 'zod';
import type { Problem } from './problem.ts';

const LONGEST_SHOWN = 60;

export function problemsFrom(issues: readonly z.core.$ZodIssue[], content: unknown): readonly Problem[] {
  return issues.flatMap((issue) => problemsOf(issue, content));
}

function problemsOf(issue: z.core.$ZodIssue, content: unknown): Problem[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => {
      const path = [...issue.path, key];
      return {
        place: placeOf(path),
        value: shown(valueAt(content, path)),
        rule: 'known names',
        allowed: issue.message,
      };
    });
  }
  const value = valueAt(content, issue.path);
  const literal = issue.code === 'custom' && typeof issue.params?.['rule'] === 'string';
  // A dimension is one thing to whoever reads the sentence: its place is the dimension, not the text inside it.
  const place = placeOf(literal && issue.path.at(-1) === 'value' ? issue.path.slice(0, -1) : issue.path);
  if (value === undefined)
    return [{ place, value: '', rule: 'required', allowed: `It is missing. ${wanted(issue)}`.trim() }];
  const rule = literal ? String(issue.params?.['rule']) : 'kind of value';
  return [{ place, value: literal ? cut(String(value)) || '(empty)' : shown(value), rule, allowed: wanted(issue) }];
}

function wanted(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_value' && issue.message.startsWith('Invalid')) {
    return `Allowed: ${issue.values.map(String).join(', ')}.`;
  }
  if (issue.code !== 'invalid_type' || !issue.message.startsWith('Invalid input')) return issue.message;
  return `Allowed: ${issue.expected === 'string' ? 'a text' : issue.expected === 'array' ? 'a list' : `an ${issue.expected}`}.`;
}

/** "assemblies[1].crank.stroke" */
export function placeOf(path: readonly PropertyKey[]): string {
  return path.reduce<string>((place, key) => {
    if (typeof key === 'number') return `${place}[${key}]`;
    return place === '' ? String(key) : `${place}.${String(key)}`;
  }, '');
}

function valueAt(content: unknown, path: readonly PropertyKey[]): unknown {
  let at: unknown = content;
  for (const key of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  return at;
}

function shown(value: unknown): string {
  return cut(typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? ''));
}

function cut(text: string): string {
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
