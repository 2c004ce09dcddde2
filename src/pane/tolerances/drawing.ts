/** Small drawings to scale: the bar of one change, the range of a gap against what it needs, the histogram of chance builds. */

const SVG = 'http://www.w3.org/2000/svg';

type Attributes = Readonly<Record<string, string | number>>;

function shape(tag: string, attributes: Attributes): SVGElement {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  return made;
}

function drawing(width: number, height: number, className: string, label: string | null): SVGSVGElement {
  const made = shape('svg', {
    viewBox: `0 0 ${width} ${height}`,
    class: className,
    preserveAspectRatio: 'none',
  }) as SVGSVGElement;
  if (label === null) made.setAttribute('aria-hidden', 'true');
  else {
    made.setAttribute('role', 'img');
    made.setAttribute('aria-label', label);
  }
  return made;
}

function text(x: number, y: number, anchor: 'start' | 'middle' | 'end', words: string): SVGElement {
  const made = shape('text', { x, y, 'text-anchor': anchor });
  made.textContent = words;
  return made;
}

const BAR_WIDTH = 200;
const BAR_HEIGHT = 10;

/**
 * From the middle: to the right what opens the gap when the dimension grows, to the left what closes it. Where the two ways
 * differ the lower half tells what shrinking does. `most`: the change that fills half the width.
 */
export function changeBar(upMm: number | null, downMm: number | null, even: boolean, most: number): SVGSVGElement {
  const svg = drawing(BAR_WIDTH, BAR_HEIGHT, 'sw-tol_bar', null);
  const half = BAR_WIDTH / 2;
  const bar = (mm: number, y: number, height: number): void => {
    const length = Math.min(1, Math.abs(mm) / most) * (half - 1);
    svg.append(
      shape('rect', {
        x: mm < 0 ? half - length : half,
        y,
        width: Math.max(1, length),
        height,
        class: mm < 0 ? 'sw-tol_closes' : 'sw-tol_opens',
      }),
    );
  };
  if (even) bar(upMm ?? 0, 1, BAR_HEIGHT - 2);
  else {
    if (upMm !== null) bar(upMm, 0, BAR_HEIGHT / 2 - 0.5);
    if (downMm !== null) bar(downMm, BAR_HEIGHT / 2 + 0.5, BAR_HEIGHT / 2 - 0.5);
  }
  svg.append(shape('line', { x1: half, y1: 0, x2: half, y2: BAR_HEIGHT, class: 'sw-tol_axis' }));
  return svg;
}

const WIDTH = 308;

export interface Range {
  readonly neededMm: number;
  readonly gapMm: number;
  readonly low: number;
  readonly high: number;
  readonly rssLow: number;
  readonly rssHigh: number;
}

/** The gap as written (tick), root sum of squares (heavy) and worst to best case (thin), against what it needs. */
export function rangeDrawing(r: Range, say: (mm: number) => string): SVGSVGElement {
  const height = 58;
  const ends = [r.neededMm, r.low, r.high];
  const from = Math.min(...ends);
  const span = Math.max(...ends) - from || 1;
  const x = (mm: number): number => 14 + ((mm - from) / span) * (WIDTH - 28);
  const svg = drawing(
    WIDTH,
    height,
    'sw-tol_range',
    `Needed ${say(r.neededMm)}; worst case ${say(r.low)}, best ${say(r.high)}; root sum of squares ${say(r.rssLow)} to ${say(r.rssHigh)}.`,
  );
  const y = 30;
  svg.append(
    shape('line', { x1: x(r.low), y1: y, x2: x(r.high), y2: y, class: 'sw-tol_thin' }),
    ...[r.low, r.high].map((mm) => shape('line', { x1: x(mm), y1: y - 5, x2: x(mm), y2: y + 5, class: 'sw-tol_thin' })),
    shape('rect', {
      x: x(r.rssLow),
      y: y - 4,
      width: Math.max(2, x(r.rssHigh) - x(r.rssLow)),
      height: 8,
      class: 'sw-tol_heavy',
    }),
    shape('line', { x1: x(r.gapMm), y1: y - 9, x2: x(r.gapMm), y2: y + 9, class: 'sw-tol_tick' }),
    shape('line', { x1: x(r.neededMm), y1: 14, x2: x(r.neededMm), y2: height - 14, class: 'sw-tol_limit' }),
    text(x(r.neededMm), 10, anchorAt(x(r.neededMm)), 'needed'),
    text(x(r.gapMm), height - 3, anchorAt(x(r.gapMm)), 'as written'),
  );
  return svg;
}

function anchorAt(x: number): 'start' | 'middle' | 'end' {
  return x < 40 ? 'start' : x > WIDTH - 40 ? 'end' : 'middle';
}

export interface Bins {
  readonly from: number;
  readonly width: number;
  readonly counts: readonly number[];
}

/** Builds by their gap, with the line of what is needed; bins below it are inked as tight. */
export function histogram(bins: Bins, limitMm: number, say: (mm: number) => string, what: string): SVGSVGElement {
  const height = 132;
  const floor = height - 20;
  const top = 18;
  const last = bins.from + bins.width * bins.counts.length;
  const from = Math.min(bins.from, limitMm - bins.width);
  const to = Math.max(last, limitMm + bins.width);
  const x = (mm: number): number => 2 + ((mm - from) / (to - from)) * (WIDTH - 4);
  const most = Math.max(...bins.counts);
  const all = bins.counts.reduce((a, b) => a + b, 0);
  const svg = drawing(
    WIDTH,
    height,
    'sw-tol_histogram',
    `${what} of ${all} builds, from ${say(bins.from)} to ${say(last)}; the line of the limit at ${say(limitMm)}.`,
  );
  for (const [k, count] of bins.counts.entries()) {
    if (count === 0) continue;
    const left = bins.from + k * bins.width;
    const tall = Math.max(1, (count / most) * (floor - top));
    // A bin that the limit cuts is inked by its middle; the chance is counted build by build.
    const below = left + bins.width / 2 < limitMm;
    svg.append(
      shape('rect', {
        x: x(left) + 0.5,
        y: floor - tall,
        width: Math.max(0.5, x(left + bins.width) - x(left) - 1),
        height: tall,
        class: below ? 'sw-tol_below' : 'sw-tol_above',
      }),
    );
  }
  const limit = x(limitMm);
  svg.append(
    shape('line', { x1: 0, y1: floor, x2: WIDTH, y2: floor, class: 'sw-tol_axis' }),
    shape('line', { x1: limit, y1: top - 4, x2: limit, y2: floor + 4, class: 'sw-tol_limit' }),
    text(limit, 11, anchorAt(limit), 'limit'),
    text(2, height - 4, 'start', say(from)),
    text(WIDTH - 2, height - 4, 'end', say(to)),
  );
  return svg;
}
