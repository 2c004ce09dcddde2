/**
 * A rigid motion in the section plane and how fast it changes with crank angle.
 *
 * Engine frame: seen from the front, x right, y up; angles grow clockwise from +y (see DEVELOPERS.md, "Frames and
 * signs"). A body's own frame is carried to the engine frame by turning it clockwise by `turnRad` and then shifting:
 *
 *   x = X +  cos(turn) * localX + sin(turn) * localY
 *   y = Y -  sin(turn) * localX + cos(turn) * localY
 *
 * so that the body's own +y axis points along u(turn) = (sin turn, cos turn), and its +x axis along v(turn) =
 * (cos turn, -sin turn). Poses live in flat arrays: `[X, Y, turn, X', Y', turn']`, millimetres and radians, the dashes
 * being derivatives by crank angle.
 */

export const POSE_X = 0;
export const POSE_Y = 1;
export const POSE_TURN = 2;
export const POSE_DX = 3;
export const POSE_DY = 4;
export const POSE_DTURN = 5;
export const POSE_SIZE = 6;

export type Pose = Float64Array;

export function newPose(): Pose {
  return new Float64Array(POSE_SIZE);
}

/**
 * How a body moves with crank angle, with bounds over the whole cycle. `write` fills the pose at a crank angle; the
 * bounds hold at every crank angle: `originAccelMm` >= |(X'', Y'')|, `turnSpeed` >= |turn'|, `turnAccel` >= |turn''|,
 * `originSpeedMm` >= |(X', Y')|. All per radian of crank angle.
 */
export interface Motion {
  readonly write: (crankAngleRad: number, out: Pose) => void;
  readonly originSpeedMm: number;
  readonly originAccelMm: number;
  readonly turnSpeed: number;
  readonly turnAccel: number;
}

/** Takes a point of a body to the engine frame: x. */
export function poseX(p: Pose, x: number, y: number): number {
  return p[POSE_X]! + Math.cos(p[POSE_TURN]!) * x + Math.sin(p[POSE_TURN]!) * y;
}

/** Takes a point of a body to the engine frame: y. */
export function poseY(p: Pose, x: number, y: number): number {
  return p[POSE_Y]! - Math.sin(p[POSE_TURN]!) * x + Math.cos(p[POSE_TURN]!) * y;
}
