/** The engines compared, turning together on one crank angle: their parts as outlines that are only moved, side by side, to one scale. */
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import { type Compared, engineOf } from '../../model/curves/compare.ts';
import { html, svg } from '../element.ts';
import { bodiesInView } from '../inView.ts';
import { sweptBox } from '../scene/swept.ts';
import { svgPath } from '../svgSection/localPath.ts';
import { readInk } from '../theme.ts';
import { borderOf, hexColours } from './strokes.ts';

export interface Together {
  readonly element: HTMLElement;
  /** The first `MOST_TURNING` of them are drawn, and it says so where there are more. */
  show(list: readonly Compared[], cylinder: number): void;
  /** Radians after the firing TDC of that cylinder, of each engine by itself; 0 to 4 pi where there is a camshaft. */
  turnTo(afterTdcRad: number): void;
}

/** More would be too small to read and too many to move in a frame. */
export const MOST_TURNING = 6;

export function createTogether(): Together {
  const element = html('div', { class: 'sw-curves-together' });
  let movers: ((afterTdcRad: number) => void)[] = [];
  let at = 0;
  let shown: readonly Compared[] = [];
  /** Cylinder and ink of the drawings. */
  let drawn = '';

  function one(compared: Compared, cylinder: number, box: ReturnType<typeof sweptBox>): HTMLElement {
    const { name } = compared;
    const engine = engineOf(compared);
    const seen = bodiesInView({ engine, cylinder, gaps: [], picked: null });
    const mirror = engine.mirrored ? -1 : 1;
    const edge = 6;
    const view = `${box.x0 - edge} ${-box.y1 - edge} ${box.x1 - box.x0 + 2 * edge} ${box.y1 - box.y0 + 2 * edge}`;
    const drawing = svg('svg', { viewBox: view, role: 'img', 'aria-label': `${name}, turning` });
    const pose = newPose();
    const chosen = engine.cylinders.find((c) => c.number === cylinder)!;
    const parts = seen
      .filter(({ role }) => role === 'cut')
      .map(({ body, part }) => {
        const group = svg('g');
        for (const shape of part === undefined ? body.drawn : body.drawn.filter(part)) {
          if (shape.style === 'hidden' || shape.style === 'construction') continue;
          const d = [shape.outline, ...(shape.holes ?? [])].map((outline) => svgPath(outline)).join('');
          group.append(svg('path', { d, class: 'sw-curves-part' }));
        }
        drawing.append(group);
        return { body, group };
      });
    movers.push((afterTdcRad) => {
      const crankAngleRad = chosen.firingTdcRad + afterTdcRad;
      for (const { body, group } of parts) {
        body.motion.write(crankAngleRad, pose);
        // Carried by turning clockwise, which with y running down is the way of growing angles; mirrored last.
        const deg = (pose[POSE_TURN]! * 180) / Math.PI;
        const flip = mirror === -1 ? 'scale(-1 1) ' : '';
        group.setAttribute(
          'transform',
          `${flip}translate(${pose[POSE_X]!.toFixed(3)} ${(-pose[POSE_Y]!).toFixed(3)}) rotate(${deg.toFixed(3)})`,
        );
      }
    });
    const caption = html('figcaption', {}, name);
    caption.style.borderTop = borderOf(compared, hexColours(readInk()));
    return html('figure', {}, drawing, caption);
  }

  return {
    element,
    show(list, cylinder) {
      const now = [cylinder, ...hexColours(readInk()).lines].join();
      const same = now === drawn && list.length === shown.length && list.every((each, k) => each === shown[k]);
      if (same) return;
      drawn = now;
      shown = list;
      movers = [];
      const some = list.slice(0, MOST_TURNING);
      const boxes = some.map((each) => reachOf(each, cylinder));
      const box = {
        x0: Math.min(...boxes.map((b) => b.x0)),
        y0: Math.min(...boxes.map((b) => b.y0)),
        x1: Math.max(...boxes.map((b) => b.x1)),
        y1: Math.max(...boxes.map((b) => b.y1)),
      };
      element.replaceChildren(
        ...some.map((each) => one(each, cylinder, box)),
        ...(list.length > some.length
          ? [html('p', { class: 'sw-curves-note' }, `The first ${some.length} of the ${list.length} chosen turn here.`)]
          : []),
      );
      for (const move of movers) move(at);
    },
    turnTo(afterTdcRad) {
      at = afterTdcRad;
      for (const move of movers) move(at);
    },
  };
}

const reaches = new WeakMap<Compared, { readonly cylinder: number; readonly box: ReturnType<typeof sweptBox> }>();

/** What its parts pass over; kept, since all of it is gone through again whenever another one is ticked. */
export function reachOf(compared: Compared, cylinder: number): ReturnType<typeof sweptBox> {
  const before = reaches.get(compared);
  if (before?.cylinder === cylinder) return before.box;
  const engine = engineOf(compared);
  const seen = bodiesInView({ engine, cylinder, gaps: [], picked: null }).filter(({ role }) => role === 'cut');
  const box = sweptBox(seen, engine.mirrored ? -1 : 1, engine.cycleRad);
  reaches.set(compared, { cylinder, box });
  return box;
}
