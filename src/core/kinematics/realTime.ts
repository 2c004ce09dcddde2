/**
 * What a turn of the crank means in seconds, metres and metres per second, at a constant speed of the engine.
 *
 * Speeds of the engine in revolutions a minute, positive and finite, else a RangeError. A derivative by crank angle
 * becomes one by time by multiplying once (speed) or twice (acceleration) by the angular speed.
 */

const SECONDS_PER_MINUTE = 60;
const MM_PER_M = 1000;

/** Angular speed of the crank in radians a second. */
export function angularSpeedRadPerS(rpm: number): number {
  if (!(rpm > 0 && Number.isFinite(rpm))) {
    throw new RangeError(`engine speed ${rpm} rpm can't be used: it must be positive and finite`);
  }
  return (2 * Math.PI * rpm) / SECONDS_PER_MINUTE;
}

/** Seconds that the crank takes for an angle. */
export function secondsForCrankAngle(crankAngleRad: number, rpm: number): number {
  return crankAngleRad / angularSpeedRadPerS(rpm);
}

/** Speed in m/s of what moves `perRadMm` millimetres per radian of crank angle. */
export function speedMPerS(perRadMm: number, rpm: number): number {
  return (perRadMm * angularSpeedRadPerS(rpm)) / MM_PER_M;
}

/** Acceleration in m/s^2 from the second derivative by crank angle, in mm per radian squared. */
export function accelMPerS2(perRad2Mm: number, rpm: number): number {
  const omega = angularSpeedRadPerS(rpm);
  return (perRad2Mm * omega * omega) / MM_PER_M;
}

/** Mean piston speed in m/s over the stroke travelled: two strokes a turn. */
export function meanPistonSpeedMPerS(strokeTravelledMm: number, rpm: number): number {
  return (strokeTravelledMm * angularSpeedRadPerS(rpm)) / (Math.PI * MM_PER_M);
}
