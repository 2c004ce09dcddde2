/**
 * The ring round the crank: positions of the crankpin, ticked every 10 and 30 degrees, with arcs where a pair in view
 * is tight or in contact, the dead centres, and the mark of the crankpin now.
 */
import { Container, Graphics } from 'pixi.js';
import type { Cylinder } from '../../assembly/engine.ts';
import type { Gap, GapState, Profile } from '../../model/results.ts';
import { profileAt, sampleState } from '../ribbon.ts';
import type { Ink } from '../theme.ts';
import type { Box, Camera } from './camera.ts';
import { letters, SMALL_PX } from './lettering.ts';

const TRACK_PX = 5;
const STEP_RAD = Math.PI / 180;
const TURN = 2 * Math.PI;

export interface CrankRing {
  readonly under: Container;
  readonly over: Container;
  /** Draws everything that stands still while the crank turns, about (0, 0): the caller puts it on the crank axis. */
  rebuild(what: RingContent): void;
  /** Turns the mark of the crankpin. */
  turn(crankAngleRad: number): void;
  /** Where its words stand on the screen. */
  labelBox(camera: Camera): Box;
  destroy(): void;
}

export interface RingContent {
  readonly camera: Camera;
  readonly radiusMm: number;
  readonly mirror: 1 | -1;
  /** Width of the screen: its words keep within. */
  readonly widthPx: number;
  readonly cylinder: Cylinder;
  readonly gaps: readonly Gap[];
  readonly profiles: ReadonlyMap<string, Profile>;
  readonly ink: Ink;
  /** Boxes of the screen that lie under other things: its words keep above them. */
  readonly covered: readonly Box[];
}

/** The gravest state of any pair in view for each degree of the crankpin; null where all clear. */
function statesRound(gaps: readonly Gap[], profiles: ReadonlyMap<string, Profile>): (GapState | null)[] {
  const states: (GapState | null)[] = new Array(360).fill(null);
  for (const gap of gaps) {
    const profile = profiles.get(gap.id);
    if (profile === undefined || (gap.state !== 'tight' && gap.state !== 'contact')) continue;
    for (let k = 0; k < Math.round(gap.periodRad / STEP_RAD); k++) {
      const state = sampleState(profileAt(profile, k * STEP_RAD), gap.limitMm, 'clears');
      if (state === 'contact' || (state === 'tight' && states[k % 360] === null)) states[k % 360] = state;
    }
  }
  return states;
}

export function createCrankRing(): CrankRing {
  const under = new Container();
  const over = new Container();
  const track = new Graphics();
  const arcs = new Graphics();
  const mark = new Graphics();
  const words = new Container();
  under.addChild(track);
  over.addChild(arcs, words, mark);
  let pinZero = 0;
  let mirror: 1 | -1 = 1;
  let radiusMm = 1;
  let labelAt: Box = { x0: 0, y0: 0, x1: 0, y1: 0 };

  return {
    under,
    over,
    rebuild(what) {
      const { camera, ink, cylinder } = what;
      radiusMm = what.radiusMm;
      mirror = what.mirror;
      // Direction of the crankpin in the engine frame at crank angle zero, clockwise from up.
      pinZero = cylinder.alphaAtZeroRad + cylinder.bankAngleRad;
      const radius = radiusMm * camera.pxPerMm;
      // Screen angle, from +x and clockwise as pixels run, of the pin at a crank angle.
      const screenAngle = (crankAngleRad: number) => mirror * (crankAngleRad + pinZero) - Math.PI / 2;

      track.clear();
      track.circle(0, 0, radius).stroke({ width: TRACK_PX, color: ink.faint, alpha: 0.22 });
      for (let deg = 0; deg < 360; deg += 10) {
        const long = deg % 90 === 0 ? 11 : deg % 30 === 0 ? 8 : 4.5;
        const a = screenAngle(cylinder.tdcRad + deg * STEP_RAD);
        const inner = radius - TRACK_PX / 2;
        track.moveTo(inner * Math.cos(a), inner * Math.sin(a));
        track.lineTo((inner + long) * Math.cos(a), (inner + long) * Math.sin(a));
      }
      track.stroke({ width: 1, color: ink.faint });

      arcs.clear();
      const states = statesRound(what.gaps, what.profiles);
      for (let k = 0; k < 360; k++) {
        const state = states[k];
        if (state === null || state === undefined || states[(k + 359) % 360] === state) continue;
        let end = k;
        while (states[(end + 1) % 360] === state && end - k < 359) end++;
        const [from, to] = [(k - 0.5) * STEP_RAD, (end + 0.5) * STEP_RAD].map(screenAngle) as [number, number];
        const half = state === 'contact' ? 4.5 : 3;
        const at = (r: number, a: number) => [r * Math.cos(a), r * Math.sin(a)] as const;
        if (state === 'contact') {
          arcs
            .moveTo(...at(radius, from))
            .arc(0, 0, radius, from, to, mirror < 0)
            .stroke({ width: 2 * half, color: ink.contact });
        } else {
          // Tight: two lines with ticks between them, so that the state shows without its colour.
          for (const r of [radius - half, radius + half]) {
            arcs
              .moveTo(...at(r, from))
              .arc(0, 0, r, from, to, mirror < 0)
              .stroke({ width: 1.5, color: ink.tight });
          }
          for (let deg = k; deg <= end; deg += 2) {
            const a = screenAngle(deg * STEP_RAD);
            arcs.moveTo(...at(radius - half, a)).lineTo(...at(radius + half, a));
          }
          arcs.stroke({ width: 1, color: ink.tight });
        }
      }

      for (const old of words.removeChildren()) old.destroy();
      // One dead centre is named, the one away from the piston, so that the ring is read as places of the crankpin.
      const a = screenAngle(cylinder.bdcRad);
      const label = letters(`crankpin at BDC ${cylinder.number}`, SMALL_PX, ink.ink);
      const out = radius + 17;
      label.position.set(
        Math.round(out * Math.cos(a) - (label.width * (1 - Math.cos(a))) / 2),
        Math.round(out * Math.sin(a) - (label.height * (1 - Math.sin(a))) / 2),
      );
      const edge = what.widthPx - camera.x - label.width - 4;
      label.x = Math.max(Math.min(label.x, edge), 4 - camera.x);
      for (const box of what.covered) {
        const [left, top] = [camera.x + label.x, camera.y + label.y];
        const beside = left > box.x1 || left + label.width < box.x0 || top > box.y1 || top + label.height < box.y0;
        if (!beside) label.y = Math.round(box.y0 - camera.y - label.height - 4);
      }
      const back = new Graphics().rect(label.x - 3, label.y, label.width + 6, label.height);
      labelAt = { x0: label.x, y0: label.y, x1: label.x + label.width, y1: label.y + label.height };
      words.addChild(back.fill({ color: ink.paper, alpha: 0.85 }), label);

      mark.clear();
      mark.poly([radius - 4, 0, radius + 9, -6, radius + 9, 6]).fill({ color: ink.accent });
    },
    turn(crankAngleRad) {
      mark.rotation = mirror * ((crankAngleRad + pinZero) % TURN) - Math.PI / 2;
    },
    labelBox({ x, y }) {
      return { x0: labelAt.x0 + x, y0: labelAt.y0 + y, x1: labelAt.x1 + x, y1: labelAt.y1 + y };
    },
    destroy() {
      under.destroy({ children: true });
      over.destroy({ children: true });
    },
  };
}
