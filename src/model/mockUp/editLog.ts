/** Changes to the mock-up log as data: an entry written, put right or taken out, and the value that explains one put into the build. */
import type { BuildDocument, MockUpEntry } from '../../build/document.ts';
import type { Explanation } from './explain.ts';
import { withValue } from './setValue.ts';

export type LogChange =
  | { readonly do: 'add'; readonly entry: MockUpEntry }
  | { readonly do: 'replace'; readonly index: number; readonly entry: MockUpEntry }
  | { readonly do: 'remove'; readonly index: number }
  /** The value is inferred, not measured: it is marked as assumed, and the entry notes where it came from. */
  | { readonly do: 'use'; readonly explanation: Explanation };

/** The document after a change. An emptied log goes. */
export function withLogChange(doc: BuildDocument, change: LogChange): BuildDocument {
  const log = doc.mockUp ?? [];
  switch (change.do) {
    case 'add':
      return { ...doc, mockUp: [...log, change.entry] };
    case 'replace':
      return { ...doc, mockUp: log.map((entry, k) => (k === change.index ? change.entry : entry)) };
    case 'remove': {
      const left = log.filter((_, k) => k !== change.index);
      const { mockUp: _, ...rest } = doc;
      return left.length === 0 ? rest : { ...doc, mockUp: left };
    }
    case 'use': {
      const { explanation } = change;
      const set = withValue(doc, explanation.target, { value: explanation.to, from: 'assumed' });
      const noted = (entry: MockUpEntry, k: number): MockUpEntry =>
        k === explanation.index ? { ...entry, note: withSentence(entry.note, usedWords(explanation)) } : entry;
      return { ...set, mockUp: log.map(noted) };
    }
  }
}

/** "Explained by piston skirt below pin of piston 3 22.54 mm instead of 22.0 mm." */
function usedWords({ label, body, from, to }: Explanation): string {
  return `Explained by ${label}${body === null ? '' : ` of ${body}`}: ${to} instead of ${from}.`;
}

function withSentence(note: string | undefined, sentence: string): string {
  return note === undefined || note.trim() === '' ? sentence : `${note.trimEnd()}\n${sentence}`;
}

/** Do two documents differ in what was written down alone, log and job, so that everything laid out from one holds for the other. */
export function onlyLogDiffers(a: BuildDocument, b: BuildDocument): boolean {
  const { mockUp: _a, job: _jobA, ...restA } = a;
  const { mockUp: _b, job: _jobB, ...restB } = b;
  const names = new Set([...Object.keys(restA), ...Object.keys(restB)]) as Set<keyof typeof restA>;
  return [...names].every((name) => restA[name] === restB[name]);
}
