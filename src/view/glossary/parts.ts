/** The parts of one cylinder of the present build in its bore's axes, at a crank angle: faint, so that what is lit stands out. */
import type { Body, Cylinder, Engine } from '../../assembly/engine.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import type { Mark, Place, Tone } from './marks.ts';

const pose = newPose();

export interface Shown {
  readonly engine: Engine;
  readonly cylinder: Cylinder;
  /** The crankcase wall stands far out: only where it matters. */
  readonly crankcase?: boolean;
  readonly cam?: boolean;
  /** Bodies that are lit, by kind. */
  readonly lit?: readonly Body['kind'][];
}

/** Marks of all bodies, from the back to the front. */
export function partsAt(shown: Shown, deg: number): Mark[] {
  const { engine, cylinder, lit = [] } = shown;
  const crankRad = (cylinder.firingTdcRad + (deg * Math.PI) / 180) % engine.cycleRad;
  const order: readonly Body['kind'][] = ['block', 'cam core', 'lobe', 'piston', 'counterweight', 'journal', 'rod'];
  return engine.bodies
    .filter((body) => belongs(body, shown))
    .sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind))
    .flatMap((body) => {
      const place = placeOf(body, cylinder, crankRad);
      const tone: Tone = lit.includes(body.kind) ? 'lit' : 'ink';
      return body.drawn
        .filter((shape) => shape.style === 'cut' || shape.style === 'behind')
        .map(
          ({ outline }): Mark => ({
            kind: 'outline',
            tone,
            outline,
            place,
            filled: body.kind !== 'block' || tone === 'lit',
          }),
        );
    });
}

function belongs(body: Body, { cylinder, crankcase = false, cam = false, engine }: Shown): boolean {
  switch (body.kind) {
    case 'piston':
    case 'rod':
      return body.cylinder === cylinder.number;
    case 'counterweight':
      return body === engine.bodies.find((b) => b.kind === 'counterweight' && b.throw === cylinder.throw);
    case 'journal':
      return false;
    case 'lobe':
      return cam && body.cylinder === cylinder.number && body.name.startsWith('intake');
    case 'cam core':
      return cam;
    case 'block':
      return body.cylinder === cylinder.number || (crankcase && body.cylinder === undefined);
    default:
      return false;
  }
}

/** Where a body stands in the bore's axes at a crank angle. */
function placeOf(body: Body, { bankAngleRad: b }: Cylinder, crankRad: number): Place {
  body.motion.write(crankRad, pose);
  const [x, y, turn] = [pose[POSE_X]!, pose[POSE_Y]!, pose[POSE_TURN]!];
  return { across: x * Math.cos(b) - y * Math.sin(b), up: x * Math.sin(b) + y * Math.cos(b), turn: turn - b };
}
