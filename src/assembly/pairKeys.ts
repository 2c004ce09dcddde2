/**
 * When two pairs go through the same relative motion, or through the mirror image of it: equal keys say so. What is solved for one
 * of them holds for all.
 *
 * MIRROR IMAGE. Two bodies seen in a mirror, right for left and front for rear, are as far apart as they are. A crank, rod or piston goes the
 * other way round there; read backwards, from the same dead centre, it goes the right way round again, with every angle and every offset
 * of the other sign. So where the mirrored shapes and places of one pair are those of another, the one's gap at an angle after its dead centre
 * is the other's at that angle before. A valve does not open backwards; but its gap depends on the height of its piston alone, which is the same in
 * the mirror at the same time: there the image is that of the section alone.
 */
import type { GapKind } from '../build/document.ts';
import type { Body, Pair } from './engine.ts';

const TURN = 2 * Math.PI;

/** From which crank angle on, and turned by how much, two bodies are looked at, so that those that move alike look alike. */
export interface Seen {
  readonly fromRad: number;
  readonly turnRad: number;
}

/** As it is, in a mirror and read backwards, or in a mirror alone. */
type Look = 'plain' | 'reversed' | 'across';

export function pairKey(kind: GapKind, limitMm: number, a: Body, b: Body, seen: Seen): string {
  return keyOf(kind, limitMm, meetingOf(a, b), bodyKey(a, seen, 'plain')!, bodyKey(b, seen, 'plain')!);
}

/** What `pairKey` would be of the mirror image, where it is known. */
export function twinOf(kind: GapKind, limitMm: number, a: Body, b: Body, seen: Seen): Pick<Pair, 'twin'> {
  const valve = a.kind === 'valve';
  const look = valve ? 'across' : 'reversed';
  const meeting = valve ? meetingOf(a, b) : mirroredMeetingOf(a, b);
  const [keyA, keyB] = [bodyKey(a, seen, look), bodyKey(b, seen, look)];
  if (meeting === null || keyA === null || keyB === null) return {};
  return { twin: { key: keyOf(kind, limitMm, meeting, keyA, keyB), reversed: !valve } };
}

function keyOf(kind: GapKind, limitMm: number, ...rest: readonly [string, string, string]): string {
  return [kind, limitMm, ...rest].join(' | ');
}

/** Angles equal to this many decimals of a radian are the same situation: 1e-9 rad moves no point by a millionth of a micrometre. */
function angle(rad: number, period: number): string {
  const wrapped = ((rad % period) + period) % period;
  const text = (period - wrapped < 1e-9 ? 0 : wrapped).toFixed(9);
  return text;
}

/** So are places, mm; nothing is nothing, whichever its sign. */
function place(mm: number): string {
  return (Math.abs(mm) < 5e-10 ? 0 : mm).toFixed(9);
}

/**
 * How two bodies lie along the shaft, counted from the first. Even layers meet over stretches, or lie apart; nothing else of their
 * axial places matters, so that each cheek beside a long wall meets it alike. With round parts the whole shift counts.
 */
function meetingOf(a: Body, b: Body): string {
  if (a.round.length > 0 || b.round.length > 0) return place(b.baseMm - a.baseMm);
  const places: string[] = [];
  for (const la of a.layers) {
    for (const lb of b.layers) {
      const from = Math.max(la.z0Mm, lb.z0Mm) - a.baseMm;
      const to = Math.min(la.z1Mm, lb.z1Mm) - a.baseMm;
      places.push(`${place(from)} ${place(to)}`);
    }
  }
  return places.join(' ');
}

/** The same, front for rear; null where it is not known from where places are counted then. */
function mirroredMeetingOf(a: Body, b: Body): string | null {
  const baseA = a.mirror?.baseMm;
  const baseB = b.mirror?.baseMm;
  if (baseA === undefined) return null;
  if (a.round.length > 0 || b.round.length > 0) return baseB === undefined ? null : place(baseB - baseA);
  const places: string[] = [];
  for (const la of a.layers) {
    for (const lb of b.layers) {
      const from = -Math.min(la.z1Mm, lb.z1Mm) - baseA;
      const to = -Math.max(la.z0Mm, lb.z0Mm) - baseA;
      places.push(`${place(from)} ${place(to)}`);
    }
  }
  return places.join(' ');
}

/**
 * What a body's part in the pair depends on but for its place along the shaft: its outlines, and its motion as seen. Two pairs with
 * the same keys go through the same relative motion. The core is a disc about its own axis, and looks alike at any angle. Null where
 * nothing is known of a body's mirror image.
 */
function bodyKey(body: Body, seen: Seen, look: Look): string | null {
  const m = body.move;
  const side = look === 'plain' ? 1 : -1;
  const time = look === 'reversed' ? -1 : 1;
  const t = seen.fromRad;
  const b = seen.turnRad;
  const shape = look === 'plain' ? body.shapeKey : body.mirror?.shapeKey;
  if (shape === undefined) return null;
  if (m.kind === 'fixed') return `${shape} fixed ${angle(side * (m.turnRad - b), TURN)}`;
  if (m.kind === 'crank') return side === time ? `${shape} crank ${angle(side * (m.phaseRad + t - b), TURN)}` : null;
  if (m.kind === 'cam') {
    const x = m.xMm * Math.cos(b) - m.yMm * Math.sin(b);
    const y = m.xMm * Math.sin(b) + m.yMm * Math.cos(b);
    const at = `${shape} cam ${place(side * x)} ${place(y)}`;
    if (body.kind === 'cam core') return at;
    return side === time ? `${at} ${m.ratio} ${angle(side * (m.phaseRad + m.ratio * t - b), TURN)}` : null;
  }
  if (m.kind === 'valve') {
    const x = m.xMm * Math.cos(b) - m.yMm * Math.sin(b);
    const y = m.xMm * Math.sin(b) + m.yMm * Math.cos(b);
    return `${shape} valve ${m.train} ${place(side * x)} ${place(y)} ${angle(side * (m.turnRad - b), TURN)} ${angle(time * (m.peakRad - t), 2 * TURN)}`;
  }
  const s = m.cylinder.slider;
  const { boreOffsetMm } = m.cylinder;
  // Offsets go by the way the crank turns: in a mirror alone they keep their sign, and the bore's must be none, since the head's place counts from it.
  if (look === 'across' && boreOffsetMm !== 0) return null;
  const offset = time * s.offsetMm;
  const bank = angle(side * (m.cylinder.bankAngleRad - b), TURN);
  return `${shape} ${m.kind} ${s.crankRadiusMm} ${s.rodLengthMm} ${offset} ${time * boreOffsetMm} ${bank} ${angle(time * (m.cylinder.alphaAtZeroRad + t), TURN)}`;
}
