/**
 * A build in which every part stands by itself, so that each can vary by itself: one assembly alone, and for each rod, piston and
 * weighted cheek an own entry with all of its dimensions. It lays out to the same engine; only, the rod length of cylinder 3
 * is now a dimension of rod 3.
 */
import { counterweightOf, pistonOf, rodOf, weightedCheeks } from '../../build/bodyOf.ts';
import type { Assembly, BuildDocument, Measured, Own } from '../../build/document.ts';
import { layoutOfBlock } from '../../build/layouts.ts';
import { aloneWith } from '../edit.ts';

/** Throws RangeError when no assembly has that name. The build must have passed its rules. */
export function settled(doc: BuildDocument, assemblyName: string): BuildDocument {
  const assembly = doc.assemblies.find((a) => a.name === assemblyName);
  if (assembly === undefined) throw new RangeError(`settled: no assembly is called "${assemblyName}"`);
  const layout = layoutOfBlock(doc.block);
  const own: Own[] = [];
  for (const { throw: number, side } of weightedCheeks(assembly, layout)) {
    const { dims, own: before } = counterweightOf(assembly, number, side);
    // A measured outline is the whole shape: the dimensions of a sector have no say in it.
    if (before?.outline !== undefined) own.push(before);
    else own.push({ ...(before ?? { body: 'counterweight', throw: number, side }), set: dims });
  }
  for (const { number } of layout.cylinders) {
    const rod = rodOf(assembly, number);
    const aRod = rod.own ?? { body: 'rod', cylinder: number };
    own.push({ ...ofSet(rod.dims, aRod), ...aRod, set: measurements(rod.dims) });
    const piston = pistonOf(assembly, number);
    const aPiston = piston.own ?? { body: 'piston', cylinder: number };
    own.push({ ...ofSet(piston.dims, aPiston), ...aPiston, set: measurements(piston.dims) });
  }
  own.push(...(assembly.own ?? []).filter((entry) => entry.body === 'lobe'));
  const alone: Assembly = { ...assembly, own };
  return { ...aloneWith(doc, assemblyName), assemblies: [alone] };
}

/** The measured outline of the set, for a body that has none of its own: origin and deviation go with their outline. */
function ofSet({ outline, outlineFrom, outlineDeviation }: Measured, own: Measured): Measured {
  if (own.outline !== undefined) return {};
  return {
    ...(outline === undefined ? {} : { outline }),
    ...(outlineFrom === undefined ? {} : { outlineFrom }),
    ...(outlineDeviation === undefined ? {} : { outlineDeviation }),
  };
}

/** A part's dimensions without the outline measured of it. */
function measurements<Part extends Measured>(part: Part): Omit<Part, keyof Measured> {
  const { outline: _, outlineFrom: __, outlineDeviation: ___, ...rest } = part;
  return rest;
}
