/** Rods and pistons that the shop can get, each with each: what would be set for a pair, and its deck clearance, exact. */
import type { Assembly, BuildDocument, Dim } from '../../build/document.ts';
import type { ShelfPiston, ShelfRod } from '../../build/documentShop.ts';
import { exactBase } from '../../build/literal.ts';
import { withLiteral } from '../edit.ts';
import type { DimPath } from '../state.ts';
import { deckClearanceOf } from '../sums/displacement.ts';
import { shopOf } from '../sums/shop.ts';

export interface Change {
  readonly path: DimPath;
  readonly text: string;
}

export interface Combination {
  readonly rod: string;
  readonly piston: string;
  readonly changes: readonly Change[];
  /** As the shop wrote them. */
  readonly prices: readonly string[];
  /** Null when the stack can't be worked out. */
  readonly deckClearanceMm: number | null;
  /** Set when the parts themselves do not go together: rod bore and finished journal, pin and small end, bore and piston. */
  readonly misfit: string | null;
}

/** How far two housings or pins may differ and be meant to be one: .0005 in, half of what a bearing clearance is held to, mm. */
const SAME_BORE_MM = 0.0127;

const ROD_PATHS: readonly (readonly [keyof ShelfRod, DimPath])[] = [
  ['length', ['rod', 'length']],
  ['bigEndWidth', ['rod', 'bigEndWidth']],
  ['bigEndBore', ['bearings', 'rodHousing']],
  ['bigEndWeight', ['weights', 'rodBigEnd']],
  ['smallEndWeight', ['weights', 'rodSmallEnd']],
];

const PISTON_PATHS: readonly (readonly [keyof ShelfPiston, DimPath])[] = [
  ['compressionHeight', ['piston', 'compressionHeight']],
  ['pinDiameter', ['piston', 'pinDiameter']],
  ['skirtBelowPin', ['piston', 'skirtBelowPin']],
  ['dishVolume', ['pistonTop', 'dishVolume']],
  ['weight', ['weights', 'piston']],
];

/** Every rod with every piston of the list; without rods, or without pistons, the assembly's own stand in. Closest to the wanted deck clearance first. */
export function combinationsOf(doc: BuildDocument, assembly: string): Combination[] {
  const index = doc.assemblies.findIndex((a) => a.name === assembly);
  const own = doc.assemblies[index];
  if (own === undefined) throw new RangeError(`combinationsOf: no assembly is called "${assembly}"`);
  const rods: readonly (ShelfRod | null)[] = doc.shelf?.rods?.length ? doc.shelf.rods : [null];
  const pistons: readonly (ShelfPiston | null)[] = doc.shelf?.pistons?.length ? doc.shelf.pistons : [null];
  if (rods[0] === null && pistons[0] === null) return [];
  const wantedMm = own.wanted?.deckClearance === undefined ? 0 : inMm(own.wanted.deckClearance);
  const all = rods.flatMap((rod) => pistons.map((piston) => combination(doc, own, index, rod, piston)));
  const far = (c: Combination): number =>
    c.deckClearanceMm === null ? Infinity : Math.abs(c.deckClearanceMm - wantedMm);
  return all.sort((a, b) => far(a) - far(b));
}

function combination(
  doc: BuildDocument,
  own: Assembly,
  index: number,
  rod: ShelfRod | null,
  piston: ShelfPiston | null,
): Combination {
  const changes = [...changesOf(index, ROD_PATHS, rod), ...changesOf(index, PISTON_PATHS, piston)];
  const next = withChanges(doc, changes);
  const clearance = deckClearanceOf(shopOf(next, own.name));
  return {
    rod: rod?.name ?? 'the rod as it is',
    piston: piston?.name ?? 'the piston as it is',
    changes,
    prices: [rod?.price, piston?.price].filter((price) => price !== undefined),
    deckClearanceMm: clearance?.toNumber() ?? null,
    misfit: misfit(doc, own, rod, piston),
  };
}

export function withChanges(doc: BuildDocument, changes: readonly Change[]): BuildDocument {
  return changes.reduce((next, { path, text }) => withLiteral(next, path, text), doc);
}

function changesOf<Part extends object>(
  index: number,
  paths: readonly (readonly [keyof Part, DimPath])[],
  part: Part | null,
): Change[] {
  if (part === null) return [];
  return paths.flatMap(([key, path]) => {
    const dim = part[key] as Dim | undefined;
    return dim === undefined ? [] : [{ path: ['assemblies', index, ...path], text: dim.value }];
  });
}

/** Parts that a shop would not even hold against one another. */
function misfit(doc: BuildDocument, own: Assembly, rod: ShelfRod | null, piston: ShelfPiston | null): string | null {
  const housing = own.bearings?.rodHousing;
  if (rod?.bigEndBore !== undefined && housing !== undefined) {
    const off = Math.abs(inMm(rod.bigEndBore) - inMm(housing));
    if (off > SAME_BORE_MM) return `big-end bore ${rod.bigEndBore.value}, the journal’s bearing needs ${housing.value}`;
  }
  const pin = piston?.pinDiameter ?? own.piston.pinDiameter;
  if (rod?.smallEndBore !== undefined && inMm(rod.smallEndBore) < inMm(pin)) {
    return `small-end bore ${rod.smallEndBore.value}, the pin is ${pin.value}`;
  }
  if (piston?.bore !== undefined && Math.abs(inMm(piston.bore) - inMm(doc.block.bore)) > 1) {
    return `piston for a bore of ${piston.bore.value}, the block has ${doc.block.bore.value}`;
  }
  return null;
}

function inMm(dim: Dim): number {
  return exactBase(dim.value, 'length').toNumber();
}
