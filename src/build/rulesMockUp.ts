/** Rules about the mock-up log: each entry speaks of an assembly, a pair and a place in the turn that the build has. */
import { canMeet, DECK, type NamedKind, namedBodies } from './bodyNames.ts';
import type { BuildDocument, MockUpEntry } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { parseAngle } from './literal.ts';
import { exact, type Report, type RuleGroup } from './ruleTable.ts';

export const mockUpGroup: RuleGroup = {
  rules: [
    {
      name: 'mock-up assembly',
      what: 'The name of an assembly of the build.',
      why: 'A measurement is held against the gap of the assembly it was taken on.',
    },
    {
      name: 'mock-up pair',
      what: 'Two bodies of that assembly whose gap is asked for, or a piston and the deck.',
      why: 'A measurement between parts that the build does not have would be held against nothing.',
    },
    {
      name: 'mock-up angle',
      what: 'After the TDC of a cylinder of the layout, less than a turn either way, less than two where a lobe or a valve is involved; none for the deck.',
      why: 'Beyond that the same place comes round again; the deck clearance is taken at TDC.',
    },
    {
      name: 'mock-up measurement',
      what: 'Zero or more; of the deck also negative.',
      why: 'Parts that touch are measured as zero. Only a crown can stand on the other side of the deck.',
    },
  ],
  check(doc, report) {
    const known = new Map<string, ReadonlyMap<string, NamedKind>>();
    doc.mockUp?.forEach((entry, k) => {
      const place = `mockUp[${k}]`;
      const assembly = doc.assemblies.find((a) => a.name === entry.assembly);
      if (assembly === undefined) {
        const names = [...new Set(doc.assemblies.map((a) => a.name))].join(', ');
        report('mock-up assembly', `${place}.assembly`, entry.assembly, `Allowed: ${names}.`);
        return;
      }
      const bodies = known.get(assembly.name) ?? namedBodies(doc, assembly);
      known.set(assembly.name, bodies);
      checkPair(entry, bodies, place, report);
      checkAngle(doc, entry, bodies, place, report);
      if (!entry.between.includes(DECK) && exact({ value: entry.measured, from: 'measured' }).lt(0)) {
        report('mock-up measurement', `${place}.measured`, entry.measured, 'Allowed: zero or greater.');
      }
    });
  },
};

function checkPair(entry: MockUpEntry, bodies: ReadonlyMap<string, NamedKind>, place: string, report: Report): void {
  const [a, b] = entry.between;
  const unknown = entry.between.findIndex((name) => !bodies.has(name));
  if (unknown >= 0) {
    const like = namesLike(entry.between[unknown]!, bodies);
    report('mock-up pair', `${place}.between[${unknown}]`, entry.between[unknown]!, `Allowed: ${like.join(', ')}.`);
  } else if (a === b || !canMeet(bodies.get(a)!, bodies.get(b)!)) {
    report('mock-up pair', `${place}.between`, `${a} and ${b}`, 'No gap is asked for between these two.');
  }
}

/** The names that begin with the same word, else one of each kind. */
function namesLike(name: string, bodies: ReadonlyMap<string, NamedKind>): string[] {
  const first = (of: string): string => of.split(' ')[0]!;
  const alike = [...bodies.keys()].filter((each) => first(each) === first(name));
  if (alike.length > 0) return alike;
  const kinds = new Set<NamedKind>();
  return [...bodies].flatMap(([each, kind]) => (kinds.has(kind) ? [] : [kinds.add(kind) && each]));
}

function checkAngle(
  doc: BuildDocument,
  entry: MockUpEntry,
  bodies: ReadonlyMap<string, NamedKind>,
  place: string,
  report: Report,
): void {
  if (entry.at === undefined) return;
  const { cylinder, afterTdc } = entry.at;
  if (entry.between.includes(DECK)) {
    report('mock-up angle', `${place}.at`, afterTdc, 'Allowed: left out; the deck clearance is taken at TDC.');
    return;
  }
  const count = layoutOfBlock(doc.block).cylinders.length;
  if (cylinder > count) {
    report('mock-up angle', `${place}.at.cylinder`, String(cylinder), `Allowed: cylinders 1 to ${count}.`);
  }
  const turns = entry.between.some((name) => ['lobe', 'valve'].includes(bodies.get(name) ?? '')) ? 2 : 1;
  const read = parseAngle(afterTdc);
  if (read.ok && !read.deg.abs().lt(360 * turns)) {
    report('mock-up angle', `${place}.at.afterTdc`, afterTdc, `Allowed: less than ${360 * turns} deg either way.`);
  }
}
