/** Rules about measured outlines by themselves, wherever they stand; how they fit their body is judged in rulesOutlineBody.ts. */
import type { BuildDocument, Dim, Measured, OutlinePoint } from './document.ts';
import { Exact } from './literal.ts';
import { meanWidthMm, type OutlineFault, outlineFault } from './outlineFault.ts';
import { outlinePieces } from './outlinePieces.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

const RULE_OF_FAULT: Readonly<Record<OutlineFault['kind'], string>> = {
  'short edge': 'outline edges',
  clockwise: 'outline sense',
  tiny: 'outline area',
  crossing: 'outline crossing',
};

export const outlineGroup: RuleGroup = {
  rules: [
    {
      name: 'outline edges',
      what: 'Every edge at least 0.01 mm long; the first point is not repeated at the end.',
      why: 'An edge without length has no direction and no sides.',
    },
    {
      name: 'outline sense',
      what: 'Points run counterclockwise, the material on the left.',
      why: 'The other way round the outline would be a hole.',
    },
    {
      name: 'outline area',
      what: 'At least 1 mm² enclosed.',
      why: 'An outline without area is a slip, and nothing would meet it.',
    },
    {
      name: 'outline crossing',
      what: 'No edge, straight or arc, crosses or touches another one except at their common point.',
      why: 'Of an outline that crosses itself nobody can say what is inside.',
    },
    {
      name: 'outline and its origin',
      what: 'A counterweight, rod or piston with an outline says where it comes from, and only then; a deviation stands beside its outline.',
      why: 'A gap that rests on an assumed outline says so.',
    },
    {
      name: 'outline or phase',
      what: 'A counterweight with an outline of its own has no phase of its own.',
      why: 'The outline already stands where the metal was measured; a turn beside it would be lost without a word.',
    },
    {
      name: 'outline deviation',
      what: 'At most 10 mm, and at most a quarter of the mean width of its outline.',
      why: 'It is taken off every gap of the part; a larger one is a slip of the unit.',
    },
    {
      name: 'fixed part faces',
      what: 'The front face of a fixed outline before its rear face.',
      why: 'Else the part has no width along the shaft and meets nothing.',
    },
  ],
  check(doc, report) {
    checkFixed(doc, report);
    doc.assemblies.forEach((assembly, a) => {
      for (const part of ['rod', 'piston'] as const) {
        checkMeasured(assembly[part], `assemblies[${a}].${part}`, report);
      }
      assembly.own?.forEach((own, k) => {
        if (own.body !== 'lobe') checkMeasured(own, `assemblies[${a}].own[${k}]`, report);
        if (own.body !== 'counterweight' || own.outline === undefined || own.phase === undefined) return;
        const allowed = 'Allowed: an outline or a phase; turn the outline’s points instead.';
        report('outline or phase', `assemblies[${a}].own[${k}].phase`, own.phase.value, allowed);
      });
    });
  },
};

function checkMeasured(part: Measured, place: string, report: Report): void {
  const { outline, outlineFrom, outlineDeviation } = part;
  if (outline !== undefined) checkOutline(outline, `${place}.outline`, report);
  if ((outline === undefined) !== (outlineFrom === undefined)) {
    const allowed = 'Allowed: outline and outlineFrom together, or neither.';
    report('outline and its origin', `${place}.outlineFrom`, outlineFrom ?? '', allowed);
  }
  if (outlineDeviation === undefined) return;
  if (outline === undefined) {
    const allowed = 'Allowed: beside an outline only.';
    report('outline and its origin', `${place}.outlineDeviation`, outlineDeviation.value, allowed);
  } else checkDeviation(outline, outlineDeviation, `${place}.outlineDeviation`, report);
}

/** mm; above any fit or tracing of a shop. */
const GREATEST_DEVIATION_MM = 10;
/** An outline is at least so many deviations wide on average. */
const LEAST_WIDTH_DEVIATIONS = 4;

function checkDeviation(points: readonly OutlinePoint[], deviation: Dim, place: string, report: Report): void {
  if (faultOf(points) !== 'sound') return;
  const widest = new Exact(Math.floor((1000 * meanWidthMm(outlinePieces(points))) / LEAST_WIDTH_DEVIATIONS)).div(1000);
  const greatest = widest.lt(GREATEST_DEVIATION_MM) ? widest : new Exact(GREATEST_DEVIATION_MM);
  if (exact(deviation).gt(greatest)) {
    report('outline deviation', place, deviation.value, `Allowed: at most ${sayMm(greatest)} for this outline.`);
  }
}

function checkFixed(doc: BuildDocument, report: Report): void {
  doc.block.fixed?.forEach((fixed, k) => {
    const place = `block.fixed[${k}]`;
    checkOutline(fixed.outline, `${place}.outline`, report);
    if (fixed.outlineDeviation !== undefined) {
      checkDeviation(fixed.outline, fixed.outlineDeviation, `${place}.outlineDeviation`, report);
    }
    if (!exact(fixed.front).lt(exact(fixed.rear))) {
      const allowed = `Allowed: less than the rear face, ${sayMm(exact(fixed.rear))}.`;
      report('fixed part faces', `${place}.front`, fixed.front.value, allowed);
    }
  });
}

/** Outlines of a document are frozen and shared between its versions: each is judged once. */
const judged = new WeakMap<readonly OutlinePoint[], OutlineFault | 'sound'>();

/** What is wrong with an outline by itself, or that nothing is. */
export function faultOf(points: readonly OutlinePoint[]): OutlineFault | 'sound' {
  const fault = judged.get(points) ?? outlineFault(points) ?? 'sound';
  if (Object.isFrozen(points)) judged.set(points, fault);
  return fault;
}

function checkOutline(points: readonly OutlinePoint[], place: string, report: Report): void {
  const fault = faultOf(points);
  if (fault === 'sound') return;
  report(RULE_OF_FAULT[fault.kind], `${place}[${fault.point}]`, `${points.length} points`, fault.says);
}
