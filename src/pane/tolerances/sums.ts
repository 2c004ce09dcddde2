/** Tolerances added up: worst case and root sum of squares against what the gap needs. */
import type { State } from '../../model/state.ts';
import type { Tolerances } from '../../model/tolerances/watcher.ts';
import { make } from '../make.ts';
import { lengthText } from '../unitHint.ts';
import { rangeDrawing } from './drawing.ts';

export function sumsOf(t: Tolerances, state: State): HTMLElement {
  const made = make('section', '', 'sw-mock_entries');
  made.append(make('h3', 'Added up'));
  const { stack, worst, sensitivities } = t;
  if (stack === null || sensitivities === null) {
    made.append(make('p', 'Once it is known what moves the gap.', 'sw-mock_quiet'));
    return made;
  }
  const toleranced = sensitivities.length - stack.exact;
  if (toleranced === 0) {
    made.append(
      make(
        'p',
        'None of these dimensions states a tolerance, so all count as exact. Write one behind a value: 6.000 ±.002 in, or 3.750 +.000 -.001 in.',
      ),
    );
    return made;
  }
  const say = (mm: number): string => lengthText(mm, state.units);
  const rows: [string, string][] = [
    ['Needed', say(t.neededMm)],
    ['As written', say(stack.gapMm)],
    ['Worst case, changes added', say(stack.worstSumMm)],
    ['Worst case, laid out and certified', worstWords(t, say)],
    ['Root sum of squares', `${say(stack.middleMm - stack.rssMm)} to ${say(stack.middleMm + stack.rssMm)}`],
  ];
  const list = make('dl', '', 'sw-tol_sums');
  for (const [name, value] of rows) list.append(make('dt', name), make('dd', value));
  made.append(
    list,
    rangeDrawing(
      {
        neededMm: t.neededMm,
        gapMm: stack.gapMm,
        low: Math.min(stack.worstSumMm, worst?.gapMm ?? stack.worstSumMm),
        high: stack.bestSumMm,
        rssLow: stack.middleMm - stack.rssMm,
        rssHigh: stack.middleMm + stack.rssMm,
      },
      say,
    ),
  );
  const notes = [
    stack.exact === 0 ? '' : `${stack.exact} of the dimensions that move it state no tolerance: counted as exact.`,
    worst !== null && worst.turned > 0
      ? `Laid out, ${worst.turned === 1 ? 'one tolerance closes' : `${worst.turned} tolerances close`} the gap at the other end than by itself.`
      : '',
    stack.refusedEnds.length === 0
      ? ''
      : `A band reaches what can’t be built: ${stack.refusedEnds.join(', ')}. There the sums know only the other end.`,
  ].filter((note) => note !== '');
  for (const note of notes) made.append(make('p', note, 'sw-mock_quiet'));
  return made;
}

function worstWords({ worst }: Tolerances, say: (mm: number) => string): string {
  if (worst === null) return 'being laid out …';
  if (worst.gapMm === null) return 'can’t be built as a whole';
  return Number.isFinite(worst.lowerBoundMm) ? say(worst.gapMm) : `${say(worst.gapMm)}, proof not finished`;
}
