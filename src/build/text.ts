/**
 * Build file text to document and back. Reading refuses with every problem it finds at its stage: the text, the version, the
 * fields, then what the fields say together. Writing is stable: the same document always gives the same text, names in the order of
 * the schema, a dimension on one line.
 */
import type { BuildDocument } from './document.ts';
import { problemsFrom } from './issues.ts';
import { scanJson } from './jsonScan.ts';
import { migrate } from './migrations.ts';
import { type Problem, problemSentence } from './problem.ts';
import { checkBuild } from './rules.ts';
import { buildSchema } from './schema.ts';

export type ParsedBuild =
  | { readonly ok: true; readonly doc: BuildDocument }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the text of a build file. The document returned is frozen and can be built. Never throws on bad text. */
export function parseBuild(text: string): ParsedBuild {
  const inText = scanJson(text.startsWith('\uFEFF') ? text.slice(1) : text);
  if (inText.length > 0) return { ok: false, problems: inText };
  return readContent(JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text));
}

/** Reads parsed content: fields first, then, when each is sound, what they say together. */
export function readContent(content: unknown): ParsedBuild {
  const migrated = migrate(content);
  if (!migrated.ok) return { ok: false, problems: [migrated.problem] };
  const fields = buildSchema.safeParse(migrated.content);
  if (!fields.success) return { ok: false, problems: problemsFrom(fields.error.issues, migrated.content) };
  const doc: BuildDocument = deepFreeze(fields.data);
  const problems = checkBuild(doc);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, doc };
}

/** Text of a document, ending with a line break. Throws RangeError when a field is not allowed by the schema. */
export function formatBuild(doc: BuildDocument): string {
  const fields = buildSchema.safeParse(doc);
  if (!fields.success) {
    throw new RangeError(problemsFrom(fields.error.issues, doc).map(problemSentence).join(' '));
  }
  return `${written(fields.data, '')}\n`;
}

/** Longest object or list kept on one line, when it holds nothing but plain values. */
const LINE = 96;

function written(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const deeper = `${indent}  `;
  const entries = Array.isArray(value)
    ? value.map((item) => written(item, deeper))
    : Object.entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${written(item, deeper)}`);
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{', '}'];
  if (entries.length === 0) return open + close;
  const plain = Object.values(value).every((item) => typeof item !== 'object');
  const line = Array.isArray(value) ? `[${entries.join(', ')}]` : `{ ${entries.join(', ')} }`;
  if (plain && line.length <= LINE) return line;
  return `${open}\n${entries.map((entry) => deeper + entry).join(',\n')}\n${indent}${close}`;
}

/** Freezes a plain value all the way down and returns it. */
export function deepFreeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null) return value;
  Object.freeze(value);
  for (const child of Object.values(value)) deepFreeze(child);
  return value;
}
