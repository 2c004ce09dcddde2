/** Rules about measured outlines, of counterweights and of fixed parts. */
import type { BuildDocument, OutlinePoint } from './document.ts';
import { type OutlineFault, outlineFault } from './outlineFault.ts';
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
      what: 'A counterweight with an outline of its own says where it comes from, and only then.',
      why: 'A gap that rests on an assumed outline says so.',
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
      assembly.own?.forEach((own, k) => {
        if (own.body !== 'counterweight') return;
        const place = `assemblies[${a}].own[${k}]`;
        if (own.outline !== undefined) checkOutline(own.outline, `${place}.outline`, report);
        if ((own.outline === undefined) !== (own.outlineFrom === undefined)) {
          const allowed = 'Allowed: outline and outlineFrom together, or neither.';
          report('outline and its origin', `${place}.outlineFrom`, own.outlineFrom ?? '', allowed);
        }
      });
    });
  },
};

function checkFixed(doc: BuildDocument, report: Report): void {
  doc.block.fixed?.forEach((fixed, k) => {
    const place = `block.fixed[${k}]`;
    checkOutline(fixed.outline, `${place}.outline`, report);
    if (!exact(fixed.front).lt(exact(fixed.rear))) {
      const allowed = `Allowed: less than the rear face, ${sayMm(exact(fixed.rear))}.`;
      report('fixed part faces', `${place}.front`, fixed.front.value, allowed);
    }
  });
}

/** Outlines of a document are frozen and shared between its versions: each is judged once. */
const judged = new WeakMap<readonly OutlinePoint[], OutlineFault | 'sound'>();

function checkOutline(points: readonly OutlinePoint[], place: string, report: Report): void {
  const fault = judged.get(points) ?? outlineFault(points) ?? 'sound';
  if (Object.isFrozen(points)) judged.set(points, fault);
  if (fault === 'sound') return;
  report(RULE_OF_FAULT[fault.kind], `${place}[${fault.point}]`, `${points.length} points`, fault.says);
}
