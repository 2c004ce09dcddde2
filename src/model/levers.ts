/**
 * Which single dimensions can open a gap of a kind, and what each costs in the shop. Whether one helps a given pair, and
 * which way it must move, is found by trying (cures.ts); this table only says what is worth trying.
 */
import type { BuildDocument, GapKind, Own } from '../build/document.ts';
import { at } from './edit.ts';
import type { DimPath } from './state.ts';

export interface Lever {
  /** What is done, for a heading: "Turn the counterweights down". */
  readonly what: string;
  readonly label: string;
  /** The one body it is for, where the body has the dimension of its own; null for the part common to all. */
  readonly body: string | null;
  readonly path: DimPath;
  /** Order of effort, 1 the least: machining a part that is on the bench anyway, machining others, buying, moving the engine's own geometry. */
  readonly effort: 1 | 2 | 3 | 4;
}

type Part = 'valvetrain' | 'counterweight' | 'rod' | 'piston' | 'camshaft' | 'crank' | 'block';

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

const INTAKE: readonly GapKind[] = ['piston-intake-valve'];
const EXHAUST: readonly GapKind[] = ['piston-exhaust-valve'];
const VALVES: readonly GapKind[] = [...INTAKE, ...EXHAUST];

const ROWS: readonly Row[] = [
  ...(['intake', 'exhaust'] as const).flatMap((valve): Row[] => {
    const kinds = valve === 'intake' ? INTAKE : EXHAUST;
    const row = (key: string, what: string, label: string, effort: Row['effort']): Row => ({
      part: 'valvetrain',
      keys: [`${valve}.${key}`],
      what,
      label,
      effort,
      kinds,
    });
    return [
      row('pocket.depth', `Deepen the ${valve} valve pockets`, `${valve} pocket depth`, 1),
      row('pocket.diameter', `Widen the ${valve} valve pockets`, `${valve} pocket diameter`, 1),
      row('recession', `Sink the ${valve} valves`, `${valve} valve recession`, 2),
      row('headDiameter', `Smaller ${valve} valves`, `${valve} head diameter`, 3),
    ];
  }),
  {
    part: 'camshaft',
    keys: ['advance'],
    what: 'Set the camshaft at another place',
    label: 'cam advance',
    effort: 1,
    kinds: VALVES,
  },
  {
    part: 'block',
    keys: ['gasketThickness'],
    what: 'A head gasket of another thickness',
    label: 'gasket thickness',
    effort: 1,
    kinds: VALVES,
  },
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
    kinds: ['rod-camshaft', ...VALVES],
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
    kinds: ['deck', ...VALVES],
  },
  {
    part: 'block',
    keys: ['deckHeight'],
    what: 'Another deck height',
    label: 'deck height',
    effort: 4,
    kinds: ['deck', ...VALVES],
  },
];

/**
 * Levers worth trying for a gap between two bodies of an assembly: only dimensions that the document has. Where a body has
 * the dimension of its own, that one is the lever, for this body alone.
 */
export function leversFor(
  doc: BuildDocument,
  assemblyIndex: number,
  kind: GapKind,
  between: readonly string[],
): Lever[] {
  const out: Lever[] = [];
  for (const row of ROWS) {
    if (!row.kinds.includes(kind)) continue;
    for (const key of row.keys) {
      const label = row.keys.length > 1 ? `${key === 'intakeLift' ? 'intake' : 'exhaust'} ${row.label}` : row.label;
      const own = ownPath(doc, assemblyIndex, row.part, key, between);
      // A rod length of its own has no compression height of its own to follow it.
      if (own !== null && key === 'length') continue;
      const path = own?.path ?? commonPath(assemblyIndex, row.part, key);
      if (at(doc, path) === undefined) continue;
      out.push({ what: row.what, label, body: own?.name ?? null, path, effort: row.effort });
    }
  }
  return out;
}

function commonPath(assemblyIndex: number, part: Part, key: string): DimPath {
  const tail = key.split('.');
  if (part === 'block') return ['block', ...tail];
  if (part === 'counterweight') return ['assemblies', assemblyIndex, 'crank', 'counterweight', ...tail];
  return ['assemblies', assemblyIndex, part, ...tail];
}

function ownPath(
  doc: BuildDocument,
  assemblyIndex: number,
  part: Part,
  key: string,
  between: readonly string[],
): { readonly path: DimPath; readonly name: string } | null {
  const entries = doc.assemblies[assemblyIndex]?.own ?? [];
  for (const [k, own] of entries.entries()) {
    const name = ownName(own);
    if (!between.includes(name)) continue;
    const path: DimPath = ['assemblies', assemblyIndex, 'own', k];
    const isLift = own.body === 'lobe' && key === `${own.valve}Lift` && own.lift !== undefined;
    if (part === 'camshaft' && isLift) return { path: [...path, 'lift'], name };
    if (own.body === part && at(doc, [...path, 'set', key]) !== undefined) return { path: [...path, 'set', key], name };
  }
  return null;
}

/** What the body of an own entry is called in a gap. */
function ownName(own: Own): string {
  if (own.body === 'counterweight') return `counterweight ${own.throw} ${own.side}`;
  return own.body === 'lobe' ? `${own.valve} lobe ${own.cylinder}` : `${own.body} ${own.cylinder}`;
}
