/** One gap at one crank angle: by the program, and by two general-purpose libraries on the same outlines in the same poses. */

import { least, say } from './measure.ts';
import {
  a,
  b,
  byConvexLibrary,
  byExactLibrary,
  byProgram,
  CHORD_MM,
  counterweight,
  EXACT_MM,
  piston,
} from './oneGap.ts';

/** Poses of one pass, evenly round the turn. */
const POSES = 720;

function microseconds(passes: number, gap: (crankAngleRad: number) => number): number {
  const ms = least(passes, () => {
    for (let k = 0; k < POSES; k++) gap((k * 2 * Math.PI) / POSES);
  });
  return (ms / POSES) * 1000;
}

/** The three must mean the same by a gap before their times are compared. */
function mustAgree(): void {
  for (let k = 0; k < POSES; k++) {
    const at = (k * 2 * Math.PI) / POSES;
    const gapMm = byProgram(at);
    const exact = byExactLibrary(at) - gapMm;
    const convex = byConvexLibrary(at) - gapMm;
    if (!(Math.abs(exact) < EXACT_MM)) throw new Error(`at ${at} rad the exact library is off by ${exact} mm`);
    if (!(convex > -EXACT_MM && convex < 2 * CHORD_MM + EXACT_MM))
      throw new Error(`at ${at} rad the convex library is off by ${convex} mm`);
  }
}

export function benchOneGap(): void {
  mustAgree();
  const own = microseconds(200, byProgram);
  const exact = microseconds(3, byExactLibrary);
  const convex = microseconds(20, byConvexLibrary);
  const edges = `${counterweight.length} x ${piston.length} edges, packed ${a.flat.n} x ${b.flat.n}`;
  say(`one gap of counterweight and piston, ${edges}`, own, 'us');
  say(`the same by @flatten-js/core, exact arcs, to ${EXACT_MM} mm`, exact, 'us');
  say(`the same by planck, GJK on convex parts, to ${2 * CHORD_MM} mm`, convex, 'us');
  say('exact arcs, times as long', exact / own, 'times');
  say('GJK, times as long', convex / own, 'times');
}
