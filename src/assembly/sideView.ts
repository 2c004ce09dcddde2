/** The crank from the side, for the strip above the section: journals, cheeks, counterweights and rods as boxes along the shaft. */
import { counterweightOf, measuredOf, weightedCheeks } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { extentOf } from '../core/outline/extent.ts';
import { throwCentreMm } from './cylinders.ts';
import { mm } from './dims.ts';
import type { Body, Cylinder, SideShape } from './engine.ts';

export function laySide(
  doc: BuildDocument,
  assembly: Assembly,
  cylinders: readonly Cylinder[],
  bodies: readonly Body[],
): SideShape[] {
  const layout = layoutOfBlock(doc.block);
  const { crank } = assembly;
  const throws = layout.throwPhasesDeg.length;
  const half = mm(crank.journalLength) / 2;
  const thickness = mm(crank.cheekThickness);
  const r = mm(crank.stroke) / 2;
  const weighted = weightedCheeks(assembly, layout);
  const out: SideShape[] = [];
  const centres = layout.throwPhasesDeg.map((_, k) => throwCentreMm(cylinders, k + 1));
  const end = mm(doc.block.bulkhead.thickness);
  for (let k = 0; k <= throws; k++) {
    const z0Mm = k === 0 ? centres[0]! - half - thickness - end : centres[k - 1]! + half + thickness;
    const z1Mm = k === throws ? centres[throws - 1]! + half + thickness + end : centres[k]! - half - thickness;
    out.push({
      kind: 'main',
      name: `main journal ${k + 1}`,
      z0Mm,
      z1Mm,
      phaseRad: 0,
      centreMm: 0,
      halfHeightMm: mm(crank.mainJournal) / 2,
    });
  }
  for (const body of bodies) {
    if (body.kind === 'journal' && body.move.kind === 'crank') {
      out.push({
        kind: 'pin',
        name: body.name,
        throw: body.throw!,
        z0Mm: body.z0Mm,
        z1Mm: body.z1Mm,
        phaseRad: body.move.phaseRad,
        centreMm: r,
        halfHeightMm: mm(crank.rodJournal) / 2,
      });
    }
    if (body.kind === 'counterweight' && body.move.kind === 'crank') {
      const side = body.name.endsWith('front') ? 'front' : 'rear';
      const dims = counterweightOf(assembly, body.throw!, side).dims;
      const measured = measuredOf(counterweightOf(assembly, body.throw!, side));
      const seen = measured === undefined ? null : extentOf(body.layers[0]!.outline);
      const top = seen === null ? r + mm(crank.pinEndRadius) : seen.y1;
      const isWeighted = weighted.some((w) => w.throw === body.throw && w.side === side);
      const low = seen === null ? mm(isWeighted ? dims.radius : dims.hubRadius) : -seen.y0;
      out.push({
        kind: isWeighted ? 'counterweight' : 'cheek',
        name: body.name,
        throw: body.throw!,
        z0Mm: body.z0Mm,
        z1Mm: body.z1Mm,
        phaseRad: body.move.phaseRad,
        centreMm: (top - low) / 2,
        halfHeightMm: (top + low) / 2,
      });
    }
    if (body.kind === 'rod' && body.move.kind === 'rod') {
      const c = body.move.cylinder;
      const big = body.layers.find((l) => l.part === 'big end')!;
      out.push({
        kind: 'rod',
        name: body.name,
        throw: c.throw,
        cylinder: c.number,
        z0Mm: big.z0Mm,
        z1Mm: big.z1Mm,
        phaseRad: c.bankAngleRad + c.alphaAtZeroRad,
        centreMm: r,
        halfHeightMm: mm(assembly.rod.bigEndRadius),
      });
    }
  }
  return out;
}
