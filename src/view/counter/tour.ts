/**
 * The tour of a build in plain words: what is taken out, what goes in, what that does, where it is tight. Only steps that
 * apply are made, and every figure is one of the model's.
 */
import type { BuildDocument } from '../../build/document.ts';
import { type GroundThrow, groundThrows, type Sum, sumsOf, written } from '../../model/sums/index.ts';
import { formatDegrees, formatLength } from '../words.ts';
import { type Side, sideOf } from './compared.ts';
import type { Step, TourOf } from './step.ts';
import { checkStep, tightSteps } from './tourRoom.ts';

export type { Lit, Step, TourOf } from './step.ts';

/** Lengths that differ by less are told as equal, mm: below the last decimal shown. */
const SAME_MM = 0.005;
/** Weights, g. */
const SAME_G = 0.05;

export function tourOf(what: TourOf): Step[] {
  const { doc, before, after, cylinder, units } = what;
  const now = sideOf(doc, after, cylinder);
  const was = before === null ? null : sideOf(doc, before, cylinder);
  const length = (mm: number): string => formatLength(mm, units);
  const top = { kind: 'after TDC', rad: 0 } as const;
  const bottom = {
    kind: 'after TDC',
    rad: (now.cylinder.bdcRad - now.cylinder.tdcRad + 4 * Math.PI) % (2 * Math.PI),
  } as const;
  const steps: Step[] = [start(what, was)];

  if (was !== null) {
    const ground = groundThrow(doc, after.assembly, now.cylinder.throw);
    if (ground !== null && ground.movementMm > SAME_MM) {
      const say = (mm: number): string => written({ as: 'fine length', value: ground.exact(mm) }, units);
      steps.push({
        key: 'grind',
        title: 'The crankpins are ground off-centre',
        sentences: [
          `The rod turns on a round pin of the crank, the crankpin. Before grinding this one measures ${say(ground.oldMm)} across.`,
          `It is ground to ${say(ground.newMm)}, and its middle moves ${now.cylinder.slider.crankRadiusMm > was.cylinder.slider.crankRadiusMm ? 'outward' : 'inward'} by ${say(ground.movementMm)}.`,
          'The metal between the dashed circle and the new one comes off.',
        ],
        lit: 'grind',
        show: 'after',
        turn: top,
      });
    }
    steps.push(circle(was, now, length));
    const rod = rodStep(was, now, length);
    if (rod !== null) steps.push(rod);
    steps.push({ ...topStep(was, now, length), turn: top });
    const low = was.crownLowMm - now.crownLowMm;
    if (Math.abs(low) > SAME_MM)
      steps.push({
        key: 'bottom',
        title: low > 0 ? 'The extra travel comes at the bottom' : 'The piston stops higher at the bottom',
        sentences: [
          `At the bottom of its travel the piston now stops ${length(Math.abs(low))} ${low > 0 ? 'lower' : 'higher'} than before.`,
          low > 0
            ? 'So it comes nearer to the turning crank. That is where to look first.'
            : 'So it stays farther from the turning crank.',
        ],
        lit: 'bottom',
        show: 'both',
        turn: bottom,
      });
    const weights = weightStep(what);
    if (weights !== null) steps.push(weights);
  }
  steps.push(...tightSteps(what));
  steps.push(checkStep(what));
  return steps;
}

function start({ after, cylinder }: TourOf, was: Side | null): Step {
  const count = after.cylinders.length;
  return {
    key: 'start',
    title: 'One cylinder, cut open',
    sentences: [
      count > 1
        ? `This is cylinder ${cylinder} of ${count}, cut open and seen from the front of the engine.`
        : 'This is the cylinder, cut open and seen from the front of the engine.',
      'The crank goes round. The rod pushes the piston up and draws it down again.',
      was === null
        ? 'This build replaces no other parts, so there is nothing to compare with.'
        : 'The dashed lines show the parts that are taken out.',
    ],
    lit: 'nothing',
    show: 'both',
    turn: { kind: 'round' },
  };
}

function circle(was: Side, now: Side, length: (mm: number) => string): Step {
  const more = now.figures.travelMm - was.figures.travelMm;
  const volume = (side: Side): number => side.figures.displacementCm3;
  const same = Math.abs(more) <= SAME_MM;
  const litres = (cm3: number): string => `${Math.round(cm3)} cm³ (${(cm3 / 16.387064).toFixed(1)} in³)`;
  return {
    key: 'stroke',
    title: same ? 'The stroke stays as it was' : more > 0 ? 'A longer stroke' : 'A shorter stroke',
    sentences: [
      ...(same
        ? [`The piston travels ${length(now.figures.travelMm)}, as before.`]
        : [
            `The crankpin now runs on a ${more > 0 ? 'larger' : 'smaller'} circle.`,
            `The piston travels ${length(now.figures.travelMm)}. Before it was ${length(was.figures.travelMm)}: ${length(Math.abs(more))} ${more > 0 ? 'more' : 'less'}.`,
          ]),
      ...(Math.abs(volume(now) - volume(was)) < 0.5
        ? []
        : [
            `${now.engine.cylinders.length > 1 ? 'The pistons together sweep' : 'The piston sweeps'} ${litres(volume(now))}. Before it was ${litres(volume(was))}. ${volume(now) > volume(was) ? 'More' : 'Less'} air is drawn in on every turn.`,
          ]),
    ],
    lit: 'pin circle',
    show: 'both',
    turn: { kind: 'round' },
  };
}

function rodStep(was: Side, now: Side, length: (mm: number) => string): Step | null {
  const longer = now.figures.rodLengthMm - was.figures.rodLengthMm;
  const leans = `A rod leans at most ${formatDegrees(now.leanRad)} to the side; before it was ${formatDegrees(was.leanRad)}.`;
  const sameLean = Math.abs(now.leanRad - was.leanRad) < 0.0005;
  if (Math.abs(longer) <= SAME_MM && sameLean) return null;
  const lean =
    now.leanRad > was.leanRad
      ? 'More lean presses the piston harder against its wall.'
      : 'Less lean presses the piston less against its wall.';
  return {
    key: 'rod',
    title:
      Math.abs(longer) <= SAME_MM ? 'The rods are as long as before' : longer > 0 ? 'A longer rod' : 'A shorter rod',
    sentences: [
      Math.abs(longer) <= SAME_MM
        ? `The rods are ${length(now.figures.rodLengthMm)} long, as before.`
        : `The rods are ${length(now.figures.rodLengthMm)} long. Before they were ${length(was.figures.rodLengthMm)}.`,
      ...(sameLean ? [] : [leans, lean]),
    ],
    lit: 'rod',
    show: 'both',
    turn: { kind: 'after TDC', rad: Math.PI / 2 },
  };
}

function topStep(was: Side, now: Side, length: (mm: number) => string): Omit<Step, 'turn'> {
  const [height, before] = [now.figures.compressionHeightMm, was.figures.compressionHeightMm];
  const deck = (side: Side): number => side.cylinder.deckClearanceMm;
  const stands = (mm: number): string =>
    Math.abs(mm) <= SAME_MM
      ? 'level with the top of the block'
      : `${length(Math.abs(mm))} ${mm > 0 ? 'below' : 'above'} the top of the block`;
  const sameTop = Math.abs(deck(now) - deck(was)) <= SAME_MM;
  const sameHeight = Math.abs(height - before) <= SAME_MM;
  return {
    key: 'top',
    title: sameTop ? 'At the top it stops where it did' : 'Where it stops at the top',
    sentences: [
      sameTop
        ? `At the top the piston stops ${stands(deck(now))}, as before.`
        : `At the top the piston stops ${stands(deck(now))}. Before it was ${stands(deck(was))}.`,
      sameHeight
        ? `From the pin it hangs on to its top the piston measures ${length(height)}, as before.`
        : `${sameTop ? 'That is why the new piston is ' : 'The new piston is '}${height < before ? 'shorter' : 'taller'}: ${length(height)} from the pin it hangs on to its top, before ${length(before)}.`,
    ],
    lit: 'top',
    show: 'both',
  };
}

function sumOf(doc: BuildDocument, assembly: string, key: string): Sum | null {
  for (const { sums } of sumsOf(doc, assembly)) for (const sum of sums) if (sum.key === key) return sum;
  return null;
}

function weightStep({ doc, before, after, units }: TourOf): Step | null {
  const pair = (key: string): readonly [Sum, Sum] | null => {
    const [was, now] = [sumOf(doc, before!.assembly, key), sumOf(doc, after.assembly, key)];
    return was?.amount == null || now?.amount == null ? null : [was, now];
  };
  const one = pair('reciprocating weight of a cylinder');
  if (one === null) return null;
  const all = pair('set of rods, pistons and bearings');
  const say = (sum: Sum): string => `${sum.estimate === undefined ? '' : 'about '}${written(sum.amount!, units)}`;
  const less = one[0].amount!.value.minus(one[1].amount!.value);
  const same = less.abs().lt(SAME_G);
  const difference = written({ as: 'weight', value: less.abs() }, units);
  return {
    key: 'weight',
    title: same ? 'The parts weigh the same' : less.gt(0) ? 'Lighter parts' : 'Heavier parts',
    sentences: [
      `In each cylinder ${say(one[1])} goes up and down. Before it was ${say(one[0])}.`,
      same
        ? 'So it pulls on the crank as before.'
        : less.gt(0)
          ? `That is ${difference} less to stop and start at each end.`
          : `That is ${difference} more to stop and start at each end.`,
      ...(all === null
        ? []
        : [`All rods, pistons and bearings together: ${say(all[1])}. Before it was ${say(all[0])}.`]),
    ],
    lit: 'piston',
    show: 'after',
    turn: { kind: 'round' },
  };
}

/** How a throw is ground, as the sums have it; null where the core's figures are missing. */
export function groundThrow(doc: BuildDocument, assembly: string, throwNumber: number): GroundThrow | null {
  return groundThrows(doc, assembly).find((t) => t.throwNumber === throwNumber) ?? null;
}
