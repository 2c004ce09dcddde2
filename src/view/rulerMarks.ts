/** The scale of the angle ruler: ticks, degrees, and the dead centres of the chosen cylinder with their lines down through the ribbons. */
import { svg } from './element.ts';

const DEG = Math.PI / 180;

/** Height of the scale above the ribbons, px. */
export const SCALE_PX = 59;

export interface RulerScale {
  /** Ends of the scale, px, and the lower end of the dead centres' lines. */
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly narrow: boolean;
  readonly cycleRad: number;
  /** BDC counted from the TDC at the scale's zero. */
  readonly bdcRad: number;
  readonly cylinder: number;
}

export function rulerMarks(what: RulerScale): SVGElement[] {
  const made: SVGElement[] = [];
  const { left, right, narrow, bottom, cycleRad, bdcRad, cylinder } = what;
  const xOf = (sinceRad: number) => left + ((right - left) * sinceRad) / cycleRad;
  const line = (x: number, y1: number, y2: number, name: string) =>
    svg('line', { class: name, x1: x.toFixed(1), x2: x.toFixed(1), y1: String(y1), y2: String(y2) });
  made.push(
    svg('line', {
      class: 'sw-ruler-tick',
      x1: String(left),
      x2: String(right),
      y1: String(SCALE_PX),
      y2: String(SCALE_PX),
    }),
  );
  const perDegree = (right - left) / (cycleRad / DEG);
  const smallest = perDegree >= 0.9 ? 10 : 30;
  const labelled = perDegree * 90 >= 62 ? 90 : 180;
  for (let deg = 0; deg <= Math.round(cycleRad / DEG); deg += smallest) {
    const x = xOf(deg * DEG);
    const length = deg % 90 === 0 ? 10 : deg % 30 === 0 ? 7 : 4;
    made.push(line(x, SCALE_PX - length, SCALE_PX, 'sw-ruler-tick'));
    if (deg % labelled === 0) {
      made.push(svg('text', { x: x.toFixed(1), y: String(SCALE_PX - 12), 'text-anchor': 'middle' }, `${deg}°`));
    }
  }
  for (let turn = 0; turn * 2 * Math.PI < cycleRad - 0.01; turn++) {
    for (const [name, since] of [
      ['TDC', turn * 2 * Math.PI],
      ['BDC', turn * 2 * Math.PI + bdcRad],
    ] as const) {
      const x = xOf(since);
      made.push(line(x, SCALE_PX, bottom, 'sw-ruler-dead'));
      const words = narrow ? name : `${name} ${cylinder}`;
      const anchor = since === 0 ? 'start' : 'middle';
      made.push(
        svg(
          'text',
          { class: 'sw-ruler-centre', x: (since === 0 ? x - 6 : x).toFixed(1), y: '34', 'text-anchor': anchor },
          words,
        ),
      );
    }
  }
  return made;
}
