/**
 * What the bodies of an assembly are called, as far as a build file may speak of them by name, and which of them have a gap between
 * them that is asked for. Which of those pairs come within reach of one another is known only once they are laid out.
 */
import { weightedCheeks } from './bodyOf.ts';
import type { Assembly, BuildDocument } from './document.ts';
import { layoutOfBlock } from './layouts.ts';

export type NamedKind = 'counterweight' | 'rod' | 'piston' | 'lobe' | 'cam core' | 'valve' | 'block' | 'deck';

/** The deck of each cylinder goes by this name: "piston 3" and "deck". */
export const DECK = 'deck';

/** Every body of an assembly that a gap can be measured at, by name. */
export function namedBodies(doc: BuildDocument, assembly: Assembly): ReadonlyMap<string, NamedKind> {
  const layout = layoutOfBlock(doc.block);
  const weighted = weightedCheeks(assembly, layout);
  const out = new Map<string, NamedKind>();
  for (const { name } of doc.block.fixed ?? []) out.set(name, 'block');
  layout.throwPhasesDeg.forEach((_, k) => {
    for (const side of ['front', 'rear'] as const) {
      const heavy = weighted.some((w) => w.throw === k + 1 && w.side === side);
      out.set(`${heavy ? 'counterweight' : 'cheek'} ${k + 1} ${side}`, 'counterweight');
    }
  });
  for (const { number } of layout.cylinders) {
    out.set(`rod ${number}`, 'rod');
    out.set(`piston ${number}`, 'piston');
    out.set(`bore ${number}`, 'block');
    if (assembly.camshaft === undefined) continue;
    out.set(`intake lobe ${number}`, 'lobe');
    out.set(`exhaust lobe ${number}`, 'lobe');
    if (assembly.valvetrain === undefined) continue;
    out.set(`intake valve ${number}`, 'valve');
    out.set(`exhaust valve ${number}`, 'valve');
  }
  if (assembly.camshaft !== undefined) out.set('camshaft core', 'cam core');
  out.set('crankcase wall', 'block');
  out.set(DECK, 'deck');
  return out;
}

/** By kind of body, the kinds that it can meet. */
const MEETS: Readonly<Record<NamedKind, readonly NamedKind[]>> = {
  counterweight: ['piston', 'block', 'lobe', 'cam core'],
  rod: ['lobe', 'cam core', 'block', 'piston'],
  piston: ['piston', 'valve', 'deck'],
  valve: [],
  lobe: [],
  'cam core': [],
  block: [],
  deck: [],
};

/** Can two kinds of body have a gap between them that is asked for. */
export function canMeet(a: NamedKind, b: NamedKind): boolean {
  return MEETS[a].includes(b) || MEETS[b].includes(a);
}
