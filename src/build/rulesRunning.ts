/** Rules about the allowances of the running engine: they are small beside the parts they belong to. */
import type { Assembly, BuildDocument, Dim } from './document.ts';
import type { Running } from './documentRunning.ts';
import { exactBase } from './literal.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

/** Clearances go by thousandths of the diameter; ten of them are more than any bearing or skirt is given. */
const LARGEST_SHARE = 0.01;

/** Growth of more than this share is another unit or another temperature: aluminium grows so much in 400 kelvin. */
const MOST_GROWN = 0.01;

export const runningGroup: RuleGroup = {
  rules: [
    {
      name: 'running clearance',
      what: 'Clearance of a bearing, of the pin or of the skirt at most a hundredth of its diameter.',
      why: 'The trade gives a bearing about a thousandth; more than ten of them is a figure in another unit.',
    },
    {
      name: 'guide within the piston',
      what: 'Guide length at most the compression height and the skirt below the pin together.',
      why: 'The skirt can’t guide over more than the piston is long.',
    },
    {
      name: 'growth by heat',
      what: 'Rate times rise at most a hundredth, warmer or colder.',
      why: 'No part of an engine grows so much; a rate or a temperature is in another unit.',
    },
  ],
  check: (doc, report) => {
    for (const [k, a] of doc.assemblies.entries())
      if (a.running !== undefined) checkRunning(doc, a, a.running, `assemblies[${k}].running`, report);
  },
};

function checkRunning(doc: BuildDocument, a: Assembly, running: Running, place: string, report: Report): void {
  const of: [keyof Running, string, Dim][] = [
    ['mainClearance', 'the main journal', a.crank.mainJournal],
    ['rodClearance', 'the rod journal', a.crank.rodJournal],
    ['pinClearance', 'the pin', a.piston.pinDiameter],
    ['skirtClearance', 'the bore', doc.block.bore],
  ];
  for (const [key, what, diameter] of of) {
    const clearance = running[key];
    const most = exact(diameter).times(LARGEST_SHARE);
    if (clearance !== undefined && exact(clearance).gt(most))
      report(
        'running clearance',
        `${place}.${key}`,
        clearance.value,
        `Allowed: at most a hundredth of ${what}, ${sayMm(most)}.`,
      );
  }
  const { guideLength } = running;
  const length = exact(a.piston.compressionHeight).plus(exact(a.piston.skirtBelowPin));
  if (guideLength !== undefined && exact(guideLength).gt(length))
    report(
      'guide within the piston',
      `${place}.guideLength`,
      guideLength.value,
      `Allowed: at most the length of the piston, ${sayMm(length)}.`,
    );
  for (const part of ['crank', 'rod', 'piston', 'block'] as const) {
    const rate = running[`${part}Growth`];
    const rise = running[`${part}Warmer`];
    if (rate === undefined || rise === undefined) continue;
    const grown = exactBase(rate.value, 'expansion').times(exactBase(rise.value, 'temperature')).div(1e6);
    if (grown.abs().gt(MOST_GROWN))
      report(
        'growth by heat',
        `${place}.${part}Warmer`,
        rise.value,
        `Allowed: with ${rate.value} a growth of at most a hundredth, so that 500 mm become 505.`,
      );
  }
}
