/** How far the shut valves of a cylinder stand out above a height along its bore, mm; 0 where there are none. For the place of a dimension line. */
import type { Cylinder, Engine } from '../../assembly/engine.ts';

export function valveReachMm(engine: Engine, cylinder: Cylinder, aboveMm: number): number {
  const [ux, uy] = [Math.sin(cylinder.bankAngleRad), Math.cos(cylinder.bankAngleRad)];
  let most = 0;
  for (const { cylinder: number, move, drawn } of engine.bodies) {
    if (move.kind !== 'valve' || number !== cylinder.number) continue;
    const [sin, cos] = [Math.sin(move.turnRad), Math.cos(move.turnRad)];
    for (const piece of drawn.flatMap((shape) => shape.outline.pieces)) {
      if (piece.kind !== 'line') continue;
      const x = move.xMm + cos * piece.x0 + sin * piece.y0;
      const y = move.yMm - sin * piece.x0 + cos * piece.y0;
      most = Math.max(most, x * ux + y * uy - aboveMm);
    }
  }
  return most;
}
