/**
 * Unbalance of a shaft as vectors along it, and what corrects it in two planes.
 *
 * A vector is mass times radius in g mm, across and up in the crank's own frame (which turns with it); `zMm` is its place
 * along the shaft. Two vectors in two planes act on the bearings like all the others together when force and moment agree:
 * A = sum U (zB - z) / (zB - zA), B = sum U (z - zA) / (zB - zA). The correction is the opposite of them.
 *
 * Source: rigid-body statics, as in Bevan, The Theory of Machines, ch. 14 (rotating masses in several planes).
 */

import { angularSpeedRadPerS } from '../kinematics/realTime.ts';

const G_PER_KG = 1000;

export interface UnbalanceVector {
  readonly xGMm: number;
  readonly yGMm: number;
  readonly zMm: number;
}

export interface PlaneVector {
  readonly xGMm: number;
  readonly yGMm: number;
}

/** The same action, in two planes. Throws a RangeError when the planes coincide or a figure is not finite. */
export function inTwoPlanes(
  vectors: readonly UnbalanceVector[],
  planeAMm: number,
  planeBMm: number,
): { readonly a: PlaneVector; readonly b: PlaneVector } {
  const apart = planeBMm - planeAMm;
  if (!(Number.isFinite(apart) && apart !== 0)) {
    throw new RangeError(`planes at ${planeAMm} mm and ${planeBMm} mm must be two different places`);
  }
  let [ax, ay, bx, by] = [0, 0, 0, 0];
  for (const u of vectors) {
    if (!(Number.isFinite(u.xGMm) && Number.isFinite(u.yGMm) && Number.isFinite(u.zMm))) {
      throw new RangeError(`an unbalance of (${u.xGMm}, ${u.yGMm}) g mm at ${u.zMm} mm must be finite`);
    }
    const toA = (planeBMm - u.zMm) / apart;
    ax += u.xGMm * toA;
    ay += u.yGMm * toA;
    bx += u.xGMm * (1 - toA);
    by += u.yGMm * (1 - toA);
  }
  return { a: { xGMm: ax, yGMm: ay }, b: { xGMm: bx, yGMm: by } };
}

/** Static unbalance and the moment about a place along the shaft, g mm and g mm². */
export function resultant(vectors: readonly UnbalanceVector[], aboutMm: number) {
  let [fx, fy, mx, my] = [0, 0, 0, 0];
  for (const u of vectors) {
    fx += u.xGMm;
    fy += u.yGMm;
    mx += u.xGMm * (u.zMm - aboutMm);
    my += u.yGMm * (u.zMm - aboutMm);
  }
  return { xGMm: fx, yGMm: fy, momentXGMm2: mx, momentYGMm2: my };
}

/**
 * Permissible residual unbalance of a rotor by grade, g mm: e_per m with e_per = G / omega, with the grade G
 * in mm/s, mass in kg and omega in rad/s. Source: ISO 21940-11 (formerly ISO 1940-1), e_per x omega = G. Throws a
 * RangeError unless all are positive and finite.
 */
export function permissibleUnbalanceGMm(gradeMmPerS: number, massKg: number, rpm: number): number {
  for (const [name, value] of [
    ['grade', gradeMmPerS],
    ['mass', massKg],
    ['speed', rpm],
  ] as const) {
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} ${value} must be positive and finite`);
  }
  const omega = angularSpeedRadPerS(rpm);
  return (G_PER_KG * gradeMmPerS * massKg) / omega;
}
