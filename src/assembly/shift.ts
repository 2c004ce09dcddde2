/**
 * How far a layer of a body can have moved between two designs: at no crank angle is a point of its surface in the one farther from the
 * corresponding point in the other. From a gap proven for one design follows a bound for the other, without looking.
 *
 * WHY IT HOLDS. Surfaces are compared piece by piece: line with line, arc with arc, each point with the point at the same
 * fraction. If no point moves by more than H, a place farther than H from the one solid lies outside the other too: on the
 * straight way from one outline to the other no point of it passes the place, so that it stays outside. Hence every point
 * of the new solid lies within H of the old one, and the distance of two bodies falls by no more than the sum of their H.
 * The gap of layered bodies is such a distance in space, a change of axial place counts with the rest.
 *
 * A point at v in a frame whose origin moves by at most O and that turns by at most T has moved by at most
 * O + |v' - v| + T |v|; of a line the farthest point is an end, as the change is linear along it; of an arc with centre c and
 * radius r it is at most O + |c' - c| + |r' - r| + r |change of angle| + T (|c| + r).
 *
 * Slider-crank, with q = r sin(alpha) - e, |q| <= Q, w = sqrt(l^2 - q^2) >= W, and Q, W taken for both designs and all
 * between them: the height of the pin s = r cos(alpha) + w changes with r and l by at most l / w <= L/W of the change each
 * (l over w is greatest where l is least), with e by at most |q| / w; the lean asin(q / l) by at most 1 / w, |q| / (l w)
 * and 1 / w of it.
 */
import type { Layer, RoundLayer } from '../core/outline/layers.ts';
import type { Outline, Piece } from '../core/outline/outline.ts';
import { pieceEnd, pieceStart } from '../core/outline/outline.ts';
import type { Body, SliderCrankDims } from './engine.ts';

/** Doubles of some hundred millimetres, a few dozen operations: what a bound is widened by, mm. */
const ROUNDING_MM = 1e-9;

const TURN = 2 * Math.PI;

/** A frame: where its origin lies on the body's own y axis in either design, how far that moves and turns. */
interface Frame {
  readonly y0Mm: number;
  readonly y1Mm: number;
  readonly originMm: number;
  readonly turnRad: number;
}

/** Layer by layer, even layers first, then round ones, mm; infinite where the two can't be compared. Null: nothing has changed. */
export type Shifts = Float64Array | null;

export function bodyShiftsMm(a: Body, b: Body): Shifts {
  if (a === b) return null;
  if (a.move.kind === 'valve' || b.move.kind === 'valve')
    return sameValve(a, b) ? null : Float64Array.of(Number.POSITIVE_INFINITY);
  return solidShiftsMm(a, b, framesOf(a, b));
}

/** A valve is judged in space, not by layers: it has moved not at all, or nobody knows how far. */
function sameValve(a: Body, b: Body): boolean {
  return a.shapeKey === b.shapeKey && a.baseMm === b.baseMm && JSON.stringify(a.move) === JSON.stringify(b.move);
}

const STILL: Frame = { y0Mm: 0, y1Mm: 0, originMm: 0, turnRad: 0 };

/**
 * The same for a rod and its own piston taken together, as the piston sees it: the rod swings about the pin, the piston stands
 * still. First design, second design.
 */
export function swingShiftsMm(
  rods: readonly [Body, Body],
  pistons: readonly [Body, Body],
): { readonly rod: Shifts; readonly piston: Shifts } {
  const [m, n] = [rods[0].move, rods[1].move];
  if (m.kind !== 'rod' || n.kind !== 'rod') throw new RangeError('swingShiftsMm: the first two bodies are no rods');
  const { slider: s0, boreOffsetMm: e0 } = m.cylinder;
  const { slider: s1, boreOffsetMm: e1 } = n.cylinder;
  const swing: Frame = {
    y0Mm: s0.rodLengthMm,
    y1Mm: s1.rodLengthMm,
    originMm: Math.abs(s1.offsetMm - e1 - (s0.offsetMm - e0)),
    turnRad: m.cylinder.alphaAtZeroRad === n.cylinder.alphaAtZeroRad ? leanShiftRad(s0, s1) : Number.POSITIVE_INFINITY,
  };
  return {
    rod: rods[0] === rods[1] ? null : solidShiftsMm(rods[0], rods[1], [swing]),
    piston: pistons[0] === pistons[1] ? null : solidShiftsMm(pistons[0], pistons[1], [STILL]),
  };
}

/** Pin height at any crank angle: by how much it may have changed; and the across-place of the pin. */
export function pinShiftMm(a: SliderCrankDims, b: SliderCrankDims): number {
  const { q, w, l } = reachOf(a, b);
  if (!(w > 0)) return Number.POSITIVE_INFINITY;
  const [dr, dl, de] = changes(a, b);
  return ((dr + dl) * l) / w + (de * q) / w;
}

/** Lean of the rod at any crank angle: by how much it may have changed, radians. */
function leanShiftRad(a: SliderCrankDims, b: SliderCrankDims): number {
  const { q, w, l } = reachOf(a, b);
  if (!(w > 0)) return Number.POSITIVE_INFINITY;
  const [dr, dl, de] = changes(a, b);
  return (dr + (dl * q) / l + de) / w;
}

function changes(a: SliderCrankDims, b: SliderCrankDims): readonly [number, number, number] {
  return [
    Math.abs(a.crankRadiusMm - b.crankRadiusMm),
    Math.abs(a.rodLengthMm - b.rodLengthMm),
    Math.abs(a.offsetMm - b.offsetMm),
  ];
}

function reachOf(a: SliderCrankDims, b: SliderCrankDims): { q: number; w: number; l: number } {
  const q = Math.max(a.crankRadiusMm, b.crankRadiusMm) + Math.max(Math.abs(a.offsetMm), Math.abs(b.offsetMm));
  const l = Math.min(a.rodLengthMm, b.rodLengthMm);
  return { q, w: l > q ? Math.sqrt((l - q) * (l + q)) : 0, l };
}

function turnChange(a: number, b: number): number {
  return Math.abs(b - a - TURN * Math.round((b - a) / TURN));
}

const NOT_COMPARABLE: readonly Frame[] = [];

/** Frames in which the two may be compared; any of them gives a bound. */
function framesOf(a: Body, b: Body): readonly Frame[] {
  const m = a.move;
  const n = b.move;
  const about = (originMm: number, turnRad: number, y0Mm = 0, y1Mm = 0): Frame => ({ y0Mm, y1Mm, originMm, turnRad });
  if (m.kind === 'fixed' && n.kind === 'fixed') return m.turnRad === n.turnRad ? [about(0, 0)] : NOT_COMPARABLE;
  if (m.kind === 'crank' && n.kind === 'crank') return [about(0, turnChange(m.phaseRad, n.phaseRad))];
  if (m.kind === 'cam' && n.kind === 'cam') {
    if (m.ratio !== n.ratio) return NOT_COMPARABLE;
    return [about(Math.hypot(n.xMm - m.xMm, n.yMm - m.yMm), turnChange(m.phaseRad, n.phaseRad))];
  }
  const slides =
    (m.kind === 'rod' && n.kind === 'rod') || (m.kind === 'piston' && n.kind === 'piston')
      ? { c0: m.cylinder, c1: n.cylinder }
      : null;
  if (slides === null) return NOT_COMPARABLE;
  const { c0, c1 } = slides;
  if (c0.bankAngleRad !== c1.bankAngleRad || c0.alphaAtZeroRad !== c1.alphaAtZeroRad) return NOT_COMPARABLE;
  const pin = pinShiftMm(c0.slider, c1.slider);
  if (m.kind === 'piston') return [about(pin + Math.abs(c1.boreOffsetMm - c0.boreOffsetMm), 0)];
  const lean = leanShiftRad(c0.slider, c1.slider);
  const offset = Math.abs(c1.slider.offsetMm - c0.slider.offsetMm);
  return [
    about(Math.abs(c1.slider.crankRadiusMm - c0.slider.crankRadiusMm), lean),
    about(pin + offset, lean, c0.slider.rodLengthMm, c1.slider.rodLengthMm),
  ];
}

interface Solid {
  readonly layers: readonly Layer[];
  readonly round: readonly RoundLayer[];
}

function solidShiftsMm(a: Solid, b: Solid, frames: readonly Frame[]): Float64Array {
  const out = new Float64Array(a.layers.length + a.round.length);
  if (frames.length === 0 || a.layers.length !== b.layers.length || a.round.length !== b.round.length)
    return out.fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < a.layers.length; k++) {
    const p = a.layers[k]!;
    const q = b.layers[k]!;
    const owes = (p.deviationMm ?? 0) === (q.deviationMm ?? 0) ? 0 : Number.POSITIVE_INFINITY;
    const axial = Math.max(Math.abs(p.z0Mm - q.z0Mm), Math.abs(p.z1Mm - q.z1Mm));
    out[k] = outlineShiftMm(p.outline, q.outline, frames) + axial + owes + ROUNDING_MM;
  }
  for (let k = 0; k < a.round.length; k++)
    out[a.layers.length + k] = roundShiftMm(a.round[k]!, b.round[k]!, frames[0]!) + ROUNDING_MM;
  return out;
}

/** Round parts are compared only where nothing but heights along their axis differs, and they do not turn. */
function roundShiftMm(a: RoundLayer, b: RoundLayer, frame: Frame): number {
  if (frame.turnRad !== 0) return Number.POSITIVE_INFINITY;
  if (a === b) return frame.originMm;
  const p = a.alike;
  const q = b.alike;
  if (p === undefined || q === undefined || p.key !== q.key || a.centreMm !== b.centreMm)
    return Number.POSITIVE_INFINITY;
  return frame.originMm + Math.max(0, ...p.heightsMm.map((y, k) => Math.abs(y - q.heightsMm[k]!)));
}

/** What was found last for an outline: cheeks share one, and so do rods. */
const lastShift = new WeakMap<
  Outline,
  { readonly other: Outline; readonly frames: readonly Frame[]; readonly mm: number }
>();

function outlineShiftMm(a: Outline, b: Outline, frames: readonly Frame[]): number {
  const last = lastShift.get(a);
  if (last !== undefined && last.other === b && sameFrames(last.frames, frames)) return last.mm;
  const mm = piecesShiftMm(a, b, frames);
  lastShift.set(a, { other: b, frames, mm });
  return mm;
}

function sameFrames(a: readonly Frame[], b: readonly Frame[]): boolean {
  return (
    a.length === b.length &&
    a.every((f, k) => {
      const g = b[k]!;
      return f.y0Mm === g.y0Mm && f.y1Mm === g.y1Mm && f.originMm === g.originMm && f.turnRad === g.turnRad;
    })
  );
}

function piecesShiftMm(a: Outline, b: Outline, frames: readonly Frame[]): number {
  if (a === b && frames.some((f) => f.originMm === 0 && f.turnRad === 0 && f.y0Mm === f.y1Mm)) return 0;
  const n = a.pieces.length;
  if (n !== b.pieces.length) return Number.POSITIVE_INFINITY;
  let most = 0;
  for (let k = 0; k < n; k++) {
    most = Math.max(most, pieceShiftMm(a.pieces[k]!, b.pieces[k]!, frames));
    if (most === Number.POSITIVE_INFINITY) break;
  }
  return most;
}

function pieceShiftMm(p: Piece, q: Piece, frames: readonly Frame[]): number {
  if (p.kind === 'line' && q.kind === 'line') {
    return Math.max(
      pointShiftMm(...pieceStart(p), ...pieceStart(q), frames),
      pointShiftMm(...pieceEnd(p), ...pieceEnd(q), frames),
    );
  }
  if (p.kind !== 'arc' || q.kind !== 'arc' || p.sweepRad > 0 !== q.sweepRad > 0) return Number.POSITIVE_INFINITY;
  const start = q.startRad - p.startRad - TURN * Math.round((q.startRad - p.startRad) / TURN);
  const end = start + q.sweepRad - p.sweepRad;
  const round = Math.abs(q.r - p.r) + p.r * Math.max(Math.abs(start), Math.abs(end));
  let least = Number.POSITIVE_INFINITY;
  for (const f of frames) {
    const cy0 = p.cy - f.y0Mm;
    const centre = length(q.cx - p.cx, q.cy - f.y1Mm - cy0);
    least = Math.min(least, f.originMm + centre + round + f.turnRad * (length(p.cx, cy0) + p.r));
  }
  return least;
}

/** Math.hypot guards against overflow that lengths of an engine never come near, and takes ten times as long. */
function length(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

function pointShiftMm(x0: number, y0: number, x1: number, y1: number, frames: readonly Frame[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const f of frames) {
    const v0 = y0 - f.y0Mm;
    const moved = length(x1 - x0, y1 - f.y1Mm - v0);
    least = Math.min(least, f.originMm + moved + f.turnRad * length(x0, v0));
  }
  return least;
}
