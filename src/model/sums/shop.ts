/** An assembly as the sums see it: its dimensions cylinder by cylinder, like ones together, with their places in the document. */
import { pistonOf, rodOf } from '../../build/bodyOf.ts';
import type { Assembly, BuildDocument, Dim, Piston, Rod } from '../../build/document.ts';
import { type Layout, layoutOfBlock } from '../../build/layouts.ts';
import type { DimPath } from '../state.ts';
import { given, type Input } from './sum.ts';

/** Cylinders whose rod and piston have the same dimensions. */
export interface Alike {
  readonly cylinders: readonly number[];
  /** Empty when all cylinders are alike, else " of cylinder 1, 4". */
  readonly label: string;
  readonly rod: Rod;
  readonly piston: Piston;
}

export interface Shop {
  readonly doc: BuildDocument;
  readonly assembly: Assembly;
  readonly layout: Layout;
  readonly alike: readonly Alike[];
  /** A dimension of the assembly as an input. */
  readonly of: (name: string, dim: Dim | undefined, ...path: DimPath) => Input;
  /** A dimension of the block. */
  readonly block: (name: string, key: 'bore' | 'deckHeight' | 'boreBottom' | 'gasketThickness' | 'boreOffset') => Input;
}

/** Throws a RangeError when the build has no assembly of that name. */
export function shopOf(doc: BuildDocument, name: string): Shop {
  const index = doc.assemblies.findIndex((a) => a.name === name);
  const assembly = doc.assemblies[index];
  if (assembly === undefined) throw new RangeError(`shopOf: no assembly is called "${name}"`);
  const layout = layoutOfBlock(doc.block);
  return {
    doc,
    assembly,
    layout,
    alike: alikeOf(assembly, layout),
    of: (input, dim, ...path) => given(input, dim, 'assemblies', index, ...path),
    block: (input, key) => given(input, doc.block[key], 'block', key),
  };
}

function alikeOf(assembly: Assembly, layout: Layout): Alike[] {
  const groups = new Map<string, { cylinders: number[]; rod: Rod; piston: Piston }>();
  for (const { number } of layout.cylinders) {
    const rod = rodOf(assembly, number).dims;
    const piston = pistonOf(assembly, number).dims;
    const key = JSON.stringify([rod, piston]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { cylinders: [number], rod, piston });
    else group.cylinders.push(number);
  }
  return [...groups.values()].map((g) => ({
    ...g,
    label: groups.size === 1 ? '' : ` of cylinder ${g.cylinders.join(', ')}`,
  }));
}

/** Both offsets, of the bore and of the pin in the piston, as inputs: their sum is the offset of the pin line. */
export function offsets(shop: Shop, alike: Alike): readonly [Input, Input] {
  return [
    shop.block('bore offset', 'boreOffset'),
    shop.of('pin offset', alike.piston.pinOffset, 'piston', 'pinOffset'),
  ];
}
