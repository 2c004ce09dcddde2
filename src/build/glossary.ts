/**
 * The glossary of the trade's terms: what its file may contain, reading it, and finding the term that a label speaks of. Each term is
 * explained in two or three sentences and has a drawing by name (view/glossary).
 */

import { problemsFrom } from './issues.ts';
import { scanJson } from './jsonScan.ts';
import { readText } from './lesson/text.ts';
import type { Problem } from './problem.ts';
import { list, oneOf, strict, text } from './schemaPieces.ts';
import { deepFreeze } from './text.ts';
import { z } from './zod.ts';

/** Every drawing that view/glossary can make. */
export const DRAWINGS = [
  'bore',
  'stroke',
  'throw',
  'crankpin',
  'main journal',
  'main bore',
  'rod length',
  'rod ratio',
  'rod angle',
  'side force',
  'top dead centre',
  'bottom dead centre',
  'piston speed',
  'piston acceleration',
  'rod stretch',
  'compression height',
  'deck height',
  'deck clearance',
  'quench',
  'displacement',
  'compression ratio',
  'chamber volume',
  'counterweight',
  'counterweight corner',
  'cheek',
  'piston pin',
  'pin boss',
  'pin offset',
  'skirt',
  'bore bottom',
  'bore notch',
  'pan rail',
  'big end',
  'small end',
  'rod bolt',
  'side clearance',
  'journal length',
  'fillet',
  'journal overlap',
  'bearing clearance',
  'oil hole',
  'offset grind',
  'core',
  'least stock',
  'case depth',
  'index error',
  'bobweight',
  'balance factor',
  'correction plane',
  'base circle',
  'lobe lift',
  'lobe separation',
  'duration',
  'intake centreline',
  'camshaft',
  'piston to valve',
  'gap',
  'limit',
  'clears',
  'certificate',
  'running gap',
  'mock-up',
  'crank angle',
  'bank',
  'firing order',
  'crankshaft',
  'block',
  'flank',
  'piston rings',
  'oil film',
  'end play',
  'unbalance',
  'shaking force',
  'reciprocating weight',
  'bearing load',
] as const;

export type DrawingName = (typeof DRAWINGS)[number];

const word = text(60).regex(/^[^A-Z{}[\]]+$/, { error: 'Allowed: small letters, as within a sentence.' });
const term = strict({
  term: word,
  also: list(word, 0, 20).describe('Other words and labels of the program that mean the same, in small letters.'),
  drawing: oneOf(DRAWINGS),
  means: text(600).describe('Two or three plain sentences; [[term]] leads to another term.'),
  related: list(word, 0, 6),
});

export const glossarySchema = strict({
  $schema: text(400).exactOptional(),
  format: z.literal('strokewright-glossary', { error: 'Allowed: strokewright-glossary.' }),
  version: z.literal(1, { error: 'Allowed: 1.' }),
  terms: list(term, 1, 400),
}).meta({ title: 'Strokewright glossary', description: 'Terms of the trade that the program speaks of.' });

export type Glossary = z.output<typeof glossarySchema>;
export type GlossaryTerm = Glossary['terms'][number];

export type ParsedGlossary =
  | { readonly ok: true; readonly glossary: Glossary }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the text of a glossary file. Never throws on bad text. */
export function parseGlossary(content: string): ParsedGlossary {
  const inText = scanJson(content);
  if (inText.length > 0) return { ok: false, problems: inText };
  const read: unknown = JSON.parse(content);
  const fields = glossarySchema.safeParse(read);
  if (!fields.success) return { ok: false, problems: problemsFrom(fields.error.issues, read) };
  const problems = checkGlossary(fields.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, glossary: deepFreeze(fields.data) };
}

function checkGlossary({ terms }: Glossary): Problem[] {
  const problems: Problem[] = [];
  const owner = new Map<string, string>();
  const known = new Set(terms.map((one) => one.term));
  const refuse = (place: string, value: string, rule: string, allowed: string): void => {
    problems.push({ place, value, rule, allowed });
  };
  terms.forEach((one, k) => {
    for (const said of [one.term, ...one.also]) {
      const other = owner.get(said);
      if (other !== undefined)
        refuse(`terms[${k}]`, said, 'words once', `Allowed: words that no other term has; ${other} has it.`);
      owner.set(said, one.term);
    }
    for (const other of one.related) {
      if (!known.has(other) || other === one.term)
        refuse(`terms[${k}].related`, other, 'glossary term', 'Allowed: another term of the glossary.');
    }
    const { pieces, faults } = readText(one.means);
    for (const fault of faults) refuse(`terms[${k}].means`, fault.value, 'placeholder', fault.allowed);
    for (const piece of pieces) {
      if (piece.kind === 'figure' || (piece.kind === 'term' && !known.has(piece.term)))
        refuse(
          `terms[${k}].means`,
          piece.kind === 'figure' ? piece.name : piece.term,
          'glossary term',
          'Allowed: terms of the glossary in double brackets; no figures.',
        );
    }
  });
  return problems;
}

export function termNames({ terms }: Glossary): ReadonlySet<string> {
  return new Set(terms.map((one) => one.term));
}

/** The schema of glossary files in JSON Schema, 2020-12. Ends with a line break. */
export function glossaryJsonSchemaText(): string {
  return `${JSON.stringify(z.toJSONSchema(glossarySchema, { target: 'draft-2020-12', io: 'input' }), null, 2)}\n`;
}
