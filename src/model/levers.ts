/**
 * Which single dimensions can open a gap of a kind, and what each costs in the shop. Whether one helps a given pair, and
 * which way it must move, is found by trying (cures.ts); this table only says what is worth trying.
 */
import type { BuildDocument, GapKind } from '../build/document.ts';
import { at } from './edit.ts';
import type { DimPath } from './state.ts';

export interface Lever {
  /** What is done, for a heading: "Turn the counterweights down". */
  readonly what: string;
  readonly label: string;
  readonly path: DimPath;
  /** Order of effort, 1 the least: machining a part that is on the bench anyway, machining others, buying, moving the engine's own geometry. */
  readonly effort: 1 | 2 | 3 | 4;
}

type Part = 'counterweight' | 'rod' | 'piston' | 'camshaft' | 'crank' | 'block';

interface Row {
  readonly part: Part;
  readonly keys: readonly string[];
  readonly what: string;
  readonly label: string;
  readonly effort: Lever['effort'];
  readonly kinds: readonly GapKind[];
}

const CW: readonly GapKind[] = ['counterweight-piston', 'counterweight-block', 'counterweight-camshaft'];
const PISTON: readonly GapKind[] = ['counterweight-piston', 'rod-piston', 'rod-opposite-piston', 'piston-piston'];
const ROD: readonly GapKind[] = ['rod-camshaft', 'rod-block'];

const ROWS: readonly Row[] = [
  {
    part: 'counterweight',
    keys: ['radius'],
    what: 'Turn the counterweights down',
    label: 'counterweight radius',
    effort: 1,
    kinds: CW,
  },
  {
    part: 'counterweight',
    keys: ['cornerRadius'],
    what: 'Round the counterweights’ corners',
    label: 'counterweight corner radius',
    effort: 1,
    kinds: CW,
  },
  {
    part: 'counterweight',
    keys: ['halfAngle'],
    what: 'Cut the counterweights’ flanks back',
    label: 'counterweight half angle',
    effort: 2,
    kinds: CW,
  },
  {
    part: 'piston',
    keys: ['skirtBelowPin'],
    what: 'Shorten the skirts',
    label: 'skirt below pin',
    effort: 1,
    kinds: PISTON,
  },
  {
    part: 'piston',
    keys: ['reliefBelowPin'],
    what: 'Cut the wall higher beside the pin bosses',
    label: 'relief below pin',
    effort: 2,
    kinds: PISTON,
  },
  {
    part: 'piston',
    keys: ['bossRadius'],
    what: 'Pistons with smaller pin bosses',
    label: 'pin boss radius',
    effort: 3,
    kinds: ['counterweight-piston', 'rod-piston'],
  },
  {
    part: 'rod',
    keys: ['length'],
    what: 'Rods of another length',
    label: 'rod length',
    effort: 3,
    kinds: [...PISTON, ...ROD, 'deck'],
  },
  {
    part: 'crank',
    keys: ['stroke'],
    what: 'Another stroke',
    label: 'stroke',
    effort: 3,
    kinds: [...CW, ...PISTON, ...ROD, 'deck'],
  },
  {
    part: 'rod',
    keys: ['shoulderHeight'],
    what: 'Lower bolt shoulders',
    label: 'bolt shoulder height',
    effort: 2,
    kinds: ['rod-camshaft', 'rod-piston', 'rod-block'],
  },
  {
    part: 'rod',
    keys: ['boltBossRadius'],
    what: 'Narrow the bolt bosses',
    label: 'bolt boss radius',
    effort: 1,
    kinds: [...ROD, 'rod-piston'],
  },
  {
    part: 'rod',
    keys: ['boltLength'],
    what: 'Shorter bolts or caps',
    label: 'bolt length',
    effort: 2,
    kinds: ['rod-block'],
  },
  {
    part: 'rod',
    keys: ['bigEndRadius'],
    what: 'Rods with a smaller big end',
    label: 'big end radius',
    effort: 3,
    kinds: ROD,
  },
  {
    part: 'rod',
    keys: ['beamWidth'],
    what: 'Rods with a narrower beam',
    label: 'beam width',
    effort: 3,
    kinds: ['rod-block', 'rod-piston', 'rod-opposite-piston'],
  },
  {
    part: 'camshaft',
    keys: ['baseCircle'],
    what: 'A camshaft with a smaller base circle',
    label: 'base circle',
    effort: 3,
    kinds: ['rod-camshaft', 'counterweight-camshaft'],
  },
  {
    part: 'camshaft',
    keys: ['intakeLift', 'exhaustLift'],
    what: 'A camshaft with less lift',
    label: 'lift',
    effort: 3,
    kinds: ['rod-camshaft'],
  },
  {
    part: 'camshaft',
    keys: ['coreDiameter'],
    what: 'A camshaft with a smaller core',
    label: 'camshaft core',
    effort: 3,
    kinds: ['rod-camshaft', 'counterweight-camshaft'],
  },
  {
    part: 'block',
    keys: ['boreBottom'],
    what: 'Relieve the lower edges of the bores',
    label: 'bore bottom',
    effort: 2,
    kinds: ['rod-block', 'counterweight-block'],
  },
  {
    part: 'block',
    keys: ['panRail.halfWidth'],
    what: 'Relieve the crankcase walls',
    label: 'half width between the walls',
    effort: 2,
    kinds: ['rod-block', 'counterweight-block'],
  },
  {
    part: 'block',
    keys: ['boreNotch.depth'],
    what: 'Deepen the notches under the bores',
    label: 'notch depth',
    effort: 1,
    kinds: ['rod-block'],
  },
  {
    part: 'piston',
    keys: ['compressionHeight'],
    what: 'Pistons of another compression height',
    label: 'compression height',
    effort: 3,
    kinds: ['deck'],
  },
  {
    part: 'block',
    keys: ['deckHeight'],
    what: 'Another deck height',
    label: 'deck height',
    effort: 4,
    kinds: ['deck'],
  },
];

/** Levers worth trying for a kind of gap in an assembly: only dimensions that the document has. */
export function leversFor(doc: BuildDocument, assemblyIndex: number, kind: GapKind): Lever[] {
  const out: Lever[] = [];
  for (const row of ROWS) {
    if (!row.kinds.includes(kind)) continue;
    for (const key of row.keys) {
      const tail = key.split('.');
      const path: DimPath =
        row.part === 'block'
          ? ['block', ...tail]
          : row.part === 'counterweight'
            ? ['assemblies', assemblyIndex, 'crank', 'counterweight', ...tail]
            : ['assemblies', assemblyIndex, row.part, ...tail];
      if (at(doc, path) === undefined) continue;
      const label = row.keys.length > 1 ? `${key === 'intakeLift' ? 'intake' : 'exhaust'} ${row.label}` : row.label;
      out.push({ what: row.what, label, path, effort: row.effort });
    }
  }
  return out;
}
