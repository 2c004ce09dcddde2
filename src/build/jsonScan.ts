/**
 * Reads over JSON text before it is parsed and finds what JSON.parse lets pass in silence: a name given twice in one object (the
 * first value would be lost), the names that reach into object prototypes, nesting without end. Also finds where text stops being JSON.
 */
import type { Problem } from './problem.ts';

/** A build nests 8 deep. */
export const DEEPEST = 16;

/** A build of 24 assemblies with measured outlines stays under a quarter of this. */
export const LONGEST_TEXT = 4_000_000;

const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** Stops the scan; `offset` counts characters from the start of the text. */
class NotJson extends Error {
  readonly offset: number;
  constructor(offset: number, message: string) {
    super(message);
    this.offset = offset;
  }
}

/** Problems of the text itself; empty when it can be handed to JSON.parse. */
export function scanJson(text: string): readonly Problem[] {
  if (text.length > LONGEST_TEXT) {
    const value = `${text.length} characters`;
    return [{ place: '', value, rule: 'readable file', allowed: `Allowed: at most ${LONGEST_TEXT} characters.` }];
  }
  const problems: Problem[] = [];
  try {
    const end = scanValue(text, skipBlanks(text, 0), '', 0, problems);
    const rest = skipBlanks(text, end);
    if (rest < text.length) throw new NotJson(rest, 'Nothing may follow the closing brace.');
  } catch (error) {
    if (!(error instanceof NotJson)) throw error;
    problems.push(notJsonProblem(text, error));
  }
  return problems;
}

function notJsonProblem(text: string, error: NotJson): Problem {
  const before = text.slice(0, error.offset);
  const line = before.split('\n').length;
  const column = error.offset - before.lastIndexOf('\n');
  const found =
    error.offset < text.length ? JSON.stringify(text.slice(error.offset, error.offset + 20)) : 'the end of the file';
  return {
    place: `line ${line}, column ${column}`,
    value: found,
    rule: 'readable file',
    allowed: `A build file is JSON text. ${error.message}`,
  };
}

/** Scans one value beginning at `at`; returns the offset after it. */
function scanValue(text: string, at: number, place: string, depth: number, problems: Problem[]): number {
  if (depth > DEEPEST) throw new NotJson(at, `Allowed: at most ${DEEPEST} levels of nesting.`);
  const first = text[at];
  if (first === '{') return scanObject(text, at, place, depth, problems);
  if (first === '[') return scanArray(text, at, place, depth, problems);
  if (first === '"') return scanString(text, at);
  const plain = /(?:true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?)/y;
  plain.lastIndex = at;
  if (!plain.test(text)) throw new NotJson(at, 'A value is expected here.');
  return plain.lastIndex;
}

function scanObject(text: string, start: number, place: string, depth: number, problems: Problem[]): number {
  const seen = new Set<string>();
  let at = skipBlanks(text, start + 1);
  if (text[at] === '}') return at + 1;
  for (;;) {
    if (text[at] !== '"') throw new NotJson(at, 'A name in double quotes is expected here.');
    const afterName = scanString(text, at);
    const name: string = JSON.parse(text.slice(at, afterName));
    const child = place === '' ? name : `${place}.${name}`;
    if (FORBIDDEN_NAMES.has(name)) {
      problems.push({
        place: child,
        value: JSON.stringify(name),
        rule: 'known names',
        allowed: 'This name is not allowed anywhere.',
      });
    } else if (seen.has(name)) {
      problems.push({
        place: child,
        value: JSON.stringify(name),
        rule: 'names once',
        allowed: 'Each name may stand once in an object; the file gives it twice.',
      });
    }
    seen.add(name);
    at = skipBlanks(text, afterName);
    if (text[at] !== ':') throw new NotJson(at, 'A colon is expected here.');
    at = skipBlanks(text, scanValue(text, skipBlanks(text, at + 1), child, depth + 1, problems));
    if (text[at] === '}') return at + 1;
    if (text[at] !== ',') throw new NotJson(at, 'A comma or a closing brace is expected here.');
    at = skipBlanks(text, at + 1);
  }
}

function scanArray(text: string, start: number, place: string, depth: number, problems: Problem[]): number {
  let at = skipBlanks(text, start + 1);
  if (text[at] === ']') return at + 1;
  for (let k = 0; ; k++) {
    at = skipBlanks(text, scanValue(text, at, `${place}[${k}]`, depth + 1, problems));
    if (text[at] === ']') return at + 1;
    if (text[at] !== ',') throw new NotJson(at, 'A comma or a closing bracket is expected here.');
    at = skipBlanks(text, at + 1);
  }
}

function scanString(text: string, start: number): number {
  for (let at = start + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x22) return at + 1;
    if (code < 0x20) throw new NotJson(at, 'A text ends on the line where it begins.');
    if (code === 0x5c) {
      const escaped = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
      escaped.lastIndex = at;
      if (!escaped.test(text)) throw new NotJson(at, 'A backslash here begins no known escape.');
      at = escaped.lastIndex - 1;
    }
  }
  throw new NotJson(text.length, 'A text in double quotes is not closed.');
}

function skipBlanks(text: string, start: number): number {
  let at = start;
  while (at < text.length && ' \t\n\r'.includes(text[at]!)) at++;
  return at;
}
