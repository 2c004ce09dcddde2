/** What is compared: the assemblies of a build, or one of them with a dimension smaller and larger, each laid out. */
import type { Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { lengthMm } from '../../build/literal.ts';
import { checkBuild } from '../../build/rules.ts';
import { aloneWith, withDeckClearanceHeld, withLiteral } from '../edit.ts';
import type { DimPath } from '../state.ts';

export type Comparison = 'assemblies' | 'rod length' | 'stroke' | 'pin offset';

export interface Compared {
  /** "Rod 5.400 in" or the name of the assembly. */
  readonly name: string;
  readonly doc: BuildDocument;
  readonly engine: Engine;
}

export interface Comparisons {
  readonly list: readonly Compared[];
  /** What could not be laid out, and why: a sentence each. */
  readonly left: readonly string[];
}

/** Most that are laid over one another. */
const MOST = 6;

/**
 * `by` is a length literal: how much shorter and longer; of the offset, how far aside. The deck clearance is held by the compression
 * height, so that the pistons still stop where they did at the top. Throws what `lengthMm` throws where it is no length.
 */
export function comparisonsOf(doc: BuildDocument, assembly: string, what: Comparison, by: string): Comparisons {
  if (what === 'assemblies') {
    const list: Compared[] = [];
    const left: string[] = [];
    for (const { name } of doc.assemblies.slice(0, MOST)) {
      const alone = aloneWith(doc, name);
      const found = checkBuild(alone)[0];
      if (found === undefined) list.push({ name, doc, engine: layOut(doc, name) });
      else left.push(`${name}: ${found.allowed}`);
    }
    return { list, left };
  }
  const index = doc.assemblies.findIndex((a) => a.name === assembly);
  const of = doc.assemblies[index];
  if (of === undefined) throw new RangeError(`comparisonsOf: no assembly is called "${assembly}"`);
  const byMm = lengthMm(by);
  const path: DimPath =
    what === 'stroke'
      ? ['assemblies', index, 'crank', 'stroke']
      : what === 'rod length'
        ? ['assemblies', index, 'rod', 'length']
        : ['assemblies', index, 'piston', 'pinOffset'];
  const nowMm = lengthMm(
    (what === 'stroke' ? of.crank.stroke : what === 'rod length' ? of.rod.length : of.piston.pinOffset).value,
  );
  const values = what === 'pin offset' ? [-byMm, 0, byMm] : [nowMm - byMm, nowMm, nowMm + byMm];
  const inches = /in|"|thou/.test(by);
  const list: Compared[] = [];
  const left: string[] = [];
  for (const mm of values) {
    const text = inches ? `${(mm / 25.4).toFixed(4)} in` : `${mm.toFixed(3)} mm`;
    const said = `${what === 'stroke' ? 'Stroke' : what === 'rod length' ? 'Rod' : 'Offset'} ${shortened(text)}`;
    const next = withDeckClearanceHeld(doc, withLiteral(doc, path, text), path);
    const found = mm <= 0 && what !== 'pin offset' ? null : checkBuild(aloneWith(next, assembly))[0];
    if (found === undefined) list.push({ name: said, doc: next, engine: layOut(next, assembly) });
    else left.push(`${said}: ${found === null ? 'nothing would be left of it.' : found.allowed}`);
  }
  return { list, left };
}

/** "138.000 mm" is "138.00 mm", "6.0000 in" is "6.000 in". */
function shortened(text: string): string {
  return text
    .replace(/0( mm| in)$/, '$1')
    .replace(/^(-?)0\.(\d+ in)/, '$1.$2')
    .replace(/^-/, '−');
}
