/**
 * Do two designs lie alike along the shaft: no part has come or gone, and each layer begins and ends where it did. Then their pairs are the
 * same, and so are the axial ranges of their cells.
 */
import type { Assembly } from '../build/document.ts';
import type { Design, Row } from './design.ts';
import type { Body } from './engine.ts';

/** Dimensions that no axial place and no number of layers depends on, of each part of an assembly (tests/assembly/along.test.ts lays them out). */
const ACROSS_THE_SHAFT = {
  crank: ['stroke', 'rodJournal', 'mainJournal', 'pinEndRadius', 'counterweight'],
  rod: [
    'length',
    'bigEndRadius',
    'boltSpread',
    'boltBossRadius',
    'shoulderHeight',
    'boltLength',
    'beamWidth',
    'smallEndRadius',
  ],
  piston: [
    'compressionHeight',
    'pinOffset',
    'pinDiameter',
    'skirtBelowPin',
    'skirtThickness',
    'reliefBelowPin',
    'crownThickness',
    'bossRadius',
  ],
} as const;

export function alongTheShaft(a: Design, b: Design): boolean {
  if (!alikeRows(a.block, b.block) || !alikeRows(a.camshaft, b.camshaft)) return false;
  if (a.cylinders.length === b.cylinders.length && a.doc.block === b.doc.block && differAcross(a.assembly, b.assembly))
    return true;
  return (
    alikeRows(a.cheeks, b.cheeks) &&
    alikeRows(a.rods, b.rods) &&
    alikeRows(a.pistons, b.pistons) &&
    alikeRows(a.valves, b.valves)
  );
}

/** Whether cheeks, rods, pistons and valves of two assemblies in one block differ in nothing but dimensions across the shaft. */
function differAcross(a: Assembly, b: Assembly): boolean {
  if (a === b) return true;
  if (a.own !== b.own || a.valvetrain !== b.valvetrain) return false;
  if ((a.camshaft === undefined) !== (b.camshaft === undefined)) return false;
  return (['crank', 'rod', 'piston'] as const).every((part) => {
    const [p, q] = [a[part] as object, b[part] as object] as Record<string, unknown>[];
    if (p === q) return true;
    const across: readonly string[] = ACROSS_THE_SHAFT[part];
    return [...Object.keys(p!), ...Object.keys(q!)].every((key) => p![key] === q![key] || across.includes(key));
  });
}

function alikeRows(a: Row, b: Row): boolean {
  if (a === b) return true;
  if (a.count !== b.count) return false;
  for (let k = 0; k < a.count; k++) if (!alikeBodies(a.at(k), b.at(k))) return false;
  return true;
}

interface Stretch {
  readonly z0Mm: number;
  readonly z1Mm: number;
}

function alike(x: Stretch, y: Stretch | undefined): boolean {
  return y !== undefined && x.z0Mm === y.z0Mm && x.z1Mm === y.z1Mm;
}

function alikeBodies(p: Body, q: Body): boolean {
  return (
    p === q ||
    (p.name === q.name &&
      alike(p, q) &&
      p.layers.length === q.layers.length &&
      p.round.length === q.round.length &&
      p.layers.every((l, n) => alike(l, q.layers[n])) &&
      p.round.every((l, n) => alike(l, q.round[n])))
  );
}
