/** The offset grind, throw by throw: what the wheel takes where, whether it cleans up, the longest stroke this core allows. */
import type { BuildDocument } from '../../build/document.ts';
import { Exact, exactBase } from '../../build/literal.ts';
import { journalOverlap, offIndexMovement, offsetGrind } from '../../core/shop/offsetGrind.ts';
import { type Turned, turnedToFit } from '../../core/shop/turnedToFit.ts';
import { strokeOf } from './displacement.ts';
import { type Shop, shopOf } from './shop.ts';
import {
  amount,
  caution,
  type Decimal,
  type Input,
  inBase,
  known,
  plainly,
  result,
  type Sum,
  type SumGroup,
  sum,
} from './sum.ts';
import { written } from './written.ts';

const CIRCLES =
  'two circles one inside the other; greatest gain of stroke = loss of diameter: trade magazine article on offset grinding, 1998';
const OVERLAP = '(main journal + rod journal − stroke) ÷ 2: Crankshaft Journal Overlap, trade page';

export function grindSums(shop: Shop): SumGroup {
  const { core } = shop.assembly;
  const title = 'Offset grind';
  const overlapAfter = overlap(shop, 'journal overlap', strokeOf(shop), finishedJournal(shop));
  if (core === undefined) return { title, sums: [overlapAfter] };
  const coreStroke = shop.of('stroke of the core', core.stroke, 'core', 'stroke');
  const coreJournal = shop.of('rod journal of the core', core.rodJournal, 'core', 'rodJournal');
  const stock = shop.of('least stock, on the radius', core.leastStock, 'core', 'leastStock');
  const throws = shop.layout.throwPhasesDeg.flatMap((_, k) => throwSums(shop, k + 1));
  return {
    title,
    sums: [
      sum(
        { key: 'eccentric amount', formula: '(new stroke − old stroke) ÷ 2', source: CIRCLES },
        [strokeOf(shop), coreStroke],
        'fine length',
        (after, before) => after!.minus(before!).div(2),
      ),
      sum(
        {
          key: 'longest stroke of this core',
          formula: 'old stroke + (old journal − new journal) − 2 × least stock',
          source: CIRCLES,
        },
        [coreStroke, coreJournal, finishedJournal(shop), stock],
        'fine length',
        (stroke, before, after, k) => stroke!.plus(before!).minus(after!).minus(k!.times(2)),
      ),
      sum(
        { key: 'rod bearing undersize', formula: 'journal of the core − finished journal', source: 'definition' },
        [coreJournal, finishedJournal(shop)],
        'fine length',
        (before, after) => before!.minus(after!),
      ),
      ...throws,
      overlap(shop, 'journal overlap of the core', coreStroke, coreJournal),
      overlapAfter,
    ],
  };
}

function finishedJournal(shop: Shop): Input {
  return shop.of('rod journal, finished', shop.assembly.crank.rodJournal, 'crank', 'rodJournal');
}

function overlap(shop: Shop, key: string, stroke: Input, journal: Input): Sum {
  return sum(
    {
      key,
      formula: '(main journal + rod journal − stroke) ÷ 2',
      source: OVERLAP,
      remark: (found) =>
        found.value.isNegative()
          ? caution('rod and main journals pass clear of each other: strength is for a qualified grinder to judge')
          : undefined,
    },
    [shop.of('main journal', shop.assembly.crank.mainJournal, 'crank', 'mainJournal'), journal, stroke],
    'fine length',
    (main, rod, s) => journalOverlap(main!, rod!, s!),
  );
}

/** Thin side, thick side, clean-up and case of one throw; a throw that was not measured by itself goes by the core's figures. */
function throwSums(shop: Shop, number: number): Sum[] {
  const { core, crank } = shop.assembly;
  if (core === undefined) return [];
  const index = core.throws?.findIndex((t) => t.throw === number) ?? -1;
  const own = core.throws?.[index];
  if (own === undefined && number > 1 && !core.throws?.length) return [];
  const label = core.throws?.length ? ` of throw ${number}` : '';
  const at = (key: string): readonly (string | number)[] => ['core', 'throws', index, key];
  const radius: Input =
    own?.radius === undefined
      ? sumAsInput(
          sum(
            { key: 'half the stroke of the core', formula: 'stroke ÷ 2', source: 'definition' },
            [shop.of('stroke of the core', core.stroke, 'core', 'stroke')],
            'fine length',
            (s) => s!.div(2),
          ),
          'throw radius, half the stroke of the core',
        )
      : shop.of('throw radius, measured', own.radius, ...at('radius'));
  const journal =
    own?.rodJournal === undefined
      ? shop.of('rod journal of the core', core.rodJournal, 'core', 'rodJournal')
      : shop.of('rod journal, measured', own.rodJournal, ...at('rodJournal'));
  const index0 =
    own?.indexError === undefined
      ? known('index error', 'angle', 0)
      : shop.of('index error', own.indexError, ...at('indexError'));
  const stock = shop.of('least stock, on the radius', core.leastStock, 'core', 'leastStock');
  const inputs = [
    strokeOf(shop),
    radius,
    journal,
    shop.of('rod journal, finished', crank.rodJournal, 'crank', 'rodJournal'),
    stock,
    index0,
  ];
  const ground = (values: readonly Decimal[]) => {
    const [stroke, r, before, after, k, delta] = values as [Decimal, Decimal, Decimal, Decimal, Decimal, Decimal];
    const pinShift = stroke.div(2).minus(r);
    const movement = offIndexMovement(pinShift, r, (delta.toNumber() * Math.PI) / 180);
    return {
      movement,
      ...offsetGrind(
        { strokeBefore: r.times(2), journalBefore: before, journalAfter: after, pinShift, leastStock: k },
        movement,
      ),
    };
  };
  const thin = sum(
    {
      key: `removed on the thin side${label}`,
      formula:
        '(old journal − new journal) ÷ 2 − m, with m = √(c² + 4 r (r + c) sin²(δ/2)), c = new radius − old radius r, δ the index error',
      source: CIRCLES,
      remark: (_, values) => {
        const { spareDiameter, cleansUp } = ground(values);
        return cleansUp
          ? plainly(`cleans up, ${mmOrIn(spareDiameter)} of diameter to spare`)
          : caution(`does not clean up: ${mmOrIn(spareDiameter.neg())} of diameter is lacking`);
      },
    },
    inputs,
    'fine length',
    (...values) => ground(values).removedThinSide,
  );
  const thick = sum(
    { key: `removed on the thick side${label}`, formula: '(old journal − new journal) ÷ 2 + m', source: CIRCLES },
    inputs,
    'fine length',
    (...values) => ground(values).removedThickSide,
  );
  const caseLeft = sum(
    {
      key: `hardened case left${label}`,
      formula: 'case depth − removed on the thick side',
      source: 'geometry',
      remark: (found) =>
        found.value.gt(0)
          ? undefined
          : caution('the case is cut through: reharden, or leave it to a qualified grinder'),
    },
    [shop.of('case depth', core.caseDepth, 'core', 'caseDepth'), result(thick)],
    'fine length',
    (depth, removed) => depth!.minus(removed!),
  );
  return [thin, thick, ...(core.caseDepth === undefined ? [] : [caseLeft])];
}

function sumAsInput(from: Sum, name: string): Input {
  return { ...result(from), name };
}

function mmOrIn(mm: Decimal): string {
  return written(amount('fine length', mm), 'both');
}

/** The crank of another engine, surface by surface: what comes off, and what is left of a hardened case. */
export function intoBlockSums(shop: Shop): SumGroup {
  const { intoBlock, core } = shop.assembly;
  const sums = (intoBlock ?? []).map((surface, k) => {
    const depth = core?.caseDepth;
    const turned = (has: Decimal, takes: Decimal, caseDepth: Decimal | null) =>
      turnedToFit({ ...surface, has, takes } as Turned, caseDepth);
    return sum(
      {
        key: `off the ${surface.name}`,
        formula:
          surface.is === 'diameter'
            ? 'what the crank has − what the block takes, on the diameter'
            : 'what the crank has − what the block takes, on one face',
        source: 'geometry',
        remark: (_, [has, takes]) => {
          const { can, caseLeft } = turned(has!, takes!, depth === undefined ? null : exactBase(depth.value, 'length'));
          if (!can) return caution('too little metal: it can’t be turned to fit');
          if (caseLeft === null) return undefined;
          return caseLeft.gt(0)
            ? plainly(`${mmOrIn(caseLeft)} of hardened case left`)
            : caution('cuts through the hardened case');
        },
      },
      [
        shop.of(`${surface.name}, as it is`, surface.has, 'intoBlock', k, 'has'),
        shop.of(`${surface.name}, as the block takes it`, surface.takes, 'intoBlock', k, 'takes'),
      ],
      'fine length',
      (has, takes) => turned(has!, takes!, null).comesOff,
    );
  });
  return { title: 'Crank into the block', sums };
}

/** One throw of a core being ground, for a drawing of it. Millimetres. */
export interface GroundThrow {
  readonly throwNumber: number;
  readonly oldMm: number;
  readonly newMm: number;
  readonly movementMm: number;
  readonly thinMm: number;
  readonly thickMm: number;
  readonly caseMm: number | null;
  /** A length of the drawing as an amount is kept. */
  readonly exact: (mm: number) => Decimal;
}

/** Every throw that can be worked out; none where the core's figures are missing. */
export function groundThrows(doc: BuildDocument, assembly: string): GroundThrow[] {
  const shop = shopOf(doc, assembly);
  const depth = shop.assembly.core?.caseDepth;
  return shop.layout.throwPhasesDeg.flatMap((_, k): GroundThrow[] => {
    const [thin, thick] = throwSums(shop, k + 1);
    if (thin?.amount == null || thick?.amount == null) return [];
    const journal = inBase(thin.inputs[2]!)!.toNumber();
    const finished = inBase(thin.inputs[3]!)!.toNumber();
    return [
      {
        throwNumber: k + 1,
        oldMm: journal,
        newMm: finished,
        movementMm: thick.amount.value.minus(thin.amount.value).div(2).toNumber(),
        thinMm: thin.amount.value.toNumber(),
        thickMm: thick.amount.value.toNumber(),
        caseMm: depth === undefined ? null : exactBase(depth.value, 'length').toNumber(),
        exact: (mm) => new Exact(mm),
      },
    ];
  });
}
