/** Which terms of the glossary a label speaks of: the whole of it, or words within it, the longest first. */
import type { Glossary, GlossaryTerm } from '../../build/glossary.ts';

export interface Finder {
  readonly terms: readonly GlossaryTerm[];
  readonly named: (term: string) => GlossaryTerm | null;
  /** The term that a label as a whole stands for. */
  readonly whole: (label: string) => GlossaryTerm | null;
  /** All terms within a label, longest words first, each once; the whole one alone where there is one. */
  readonly within: (label: string) => readonly GlossaryTerm[];
  /** Terms whose name, other words or explanation hold what is sought. */
  readonly search: (sought: string) => readonly GlossaryTerm[];
}

/** A label longer than this is a text. */
const LONGEST_LABEL = 120;

/** What stands in brackets, after a comma or a colon, qualifies a label: "Speed, 2800 rpm", "Deck clearance (held)". */
function core(label: string): string {
  return label
    .toLowerCase()
    .replace(/[’']s\b/g, '')
    .replace(/\(.*?\)/g, ' ')
    .replace(/[,:].*$/, '')
    .replace(/\s+/g, ' ')
    .trim();
}

export function createFinder({ terms }: Glossary): Finder {
  const byWords = new Map<string, GlossaryTerm>();
  for (const term of terms) for (const said of [term.term, ...term.also]) byWords.set(said, term);
  const longest = [...byWords.keys()].sort((a, b) => b.length - a.length);
  const known = new Map<string, readonly GlossaryTerm[]>();
  const whole = (label: string): GlossaryTerm | null => {
    const plain = label.toLowerCase().replace(/\s+/g, ' ').trim();
    return byWords.get(plain) ?? byWords.get(core(label)) ?? null;
  };
  const scan = (label: string): readonly GlossaryTerm[] => {
    const found = new Set<GlossaryTerm>();
    let rest = ` ${label.toLowerCase().replace(/[^\p{L}\p{N}-]+/gu, ' ')} `;
    for (const said of longest) {
      // Plurals count: "counterweights", "rods".
      for (const form of [` ${said} `, ` ${said}s `]) {
        if (!rest.includes(form)) continue;
        found.add(byWords.get(said)!);
        rest = rest.replaceAll(form, ' · ');
      }
    }
    return [...found];
  };
  return {
    terms,
    named: (term) => terms.find((one) => one.term === term) ?? null,
    whole,
    within: (label) => {
      if (label.length > LONGEST_LABEL) return [];
      const before = known.get(label);
      if (before !== undefined) return before;
      const one = whole(label);
      const found = one === null ? scan(label) : [one];
      if (known.size > 2000) known.clear();
      known.set(label, found);
      return found;
    },
    search: (sought) => {
      const plain = sought.toLowerCase().trim();
      if (plain === '') return terms;
      const rank = ({ term, also, means }: GlossaryTerm): number =>
        term.startsWith(plain)
          ? 0
          : term.includes(plain)
            ? 1
            : also.some((said) => said.includes(plain))
              ? 2
              : means.toLowerCase().includes(plain)
                ? 3
                : 9;
      return terms
        .map((term) => ({ term, at: rank(term) }))
        .filter(({ at }) => at < 9)
        .sort((a, b) => a.at - b.at)
        .map(({ term }) => term);
    },
  };
}
