/**
 * Where the parts of an engine stand at a crank angle, from the circle and the line alone: for checks, imports nothing.
 *
 * Seen from the front, x right, y up; angles clockwise from +y. A part is turned clockwise by `turn` about its own origin,
 * then its origin is moved to (x, y).
 */
export interface At {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

export interface SliderNumbers {
  readonly r: number;
  readonly l: number;
  /** Offset of the pin line from the crank axis, to the side on which the crankpin goes down. */
  readonly e: number;
  /** Bore direction, and the crankpin's direction from it at crank angle 0. */
  readonly bank: number;
  readonly alpha0: number;
}

/** About a fixed axis at a fixed speed, `ratio` turns a turn of the crank. */
export function turning(x: number, y: number, ratio: number, phase: number, crank: number): At {
  return { x, y, turn: ratio * crank + phase };
}

/** Crankpin, and the place where the circle of the rod's length about it meets the pin line, the outer of the two. */
function pins(
  s: SliderNumbers,
  crank: number,
): { crankpin: readonly [number, number]; pin: readonly [number, number] } {
  const direction = s.bank + s.alpha0 + crank;
  const cx = s.r * Math.sin(direction);
  const cy = s.r * Math.cos(direction);
  const [ux, uy] = [Math.sin(s.bank), Math.cos(s.bank)];
  // Foot of the crankpin on the pin line, which passes through e (uy, -ux).
  const along = cx * ux + cy * uy;
  const [fx, fy] = [s.e * uy + along * ux, -s.e * ux + along * uy];
  const off = Math.hypot(cx - fx, cy - fy);
  const rise = Math.sqrt(s.l * s.l - off * off);
  return { crankpin: [cx, cy], pin: [fx + rise * ux, fy + rise * uy] };
}

/** Origin at the crankpin, own +y to the piston pin. */
export function rodAt(s: SliderNumbers, crank: number): At {
  const { crankpin, pin } = pins(s, crank);
  return { x: crankpin[0], y: crankpin[1], turn: Math.atan2(pin[0] - crankpin[0], pin[1] - crankpin[1]) };
}

/** Origin on the bore axis, which stands `boreOffset` beside the crank axis, at the height of the pin; own +y along the bore. */
export function pistonAt(s: SliderNumbers, boreOffset: number, crank: number): At {
  const { pin } = pins(s, crank);
  const shift = boreOffset - s.e;
  return { x: pin[0] + shift * Math.cos(s.bank), y: pin[1] - shift * Math.sin(s.bank), turn: s.bank };
}
