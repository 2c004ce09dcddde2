/** An outline in its body's own frame as path data, mm, y running down: for parts that are drawn once and then only moved. */
import type { Outline } from '../../core/outline/outline.ts';
import { newPose } from '../../core/plane/pose.ts';
import { outlinePath } from './svgBodies.ts';

const AS_IT_STANDS = newPose();

export function svgPath(outline: Outline): string {
  return outlinePath(outline, AS_IT_STANDS, 1, { pxPerMm: 1, x: 0, y: 0 });
}
