/** The assembly taken out, beside the one that goes in: drawn at the same crank angle and at the same scale. */
import type { Engine } from '../../assembly/engine.ts';
import type { State } from '../../model/state.ts';
import { html } from '../element.ts';
import type { Camera } from '../scene/camera.ts';
import { cameraOf, type SvgSection, svgSection } from '../svgSection/svgSection.ts';
import { readInk } from '../theme.ts';

/** One over the other is harder to compare: only where the drawings get so much larger by it. */
const WORTH_STACKING = 1.25;

export interface Beside {
  readonly root: HTMLElement;
  /** Whether two drawings of this section are larger one beside the other or one over the other in a picture of this size, px. */
  readonly lie: (state: State, before: Engine, width: number, height: number) => 'row' | 'column';
  /** Draws the assembly taken out; `camera` is that of the section beside it. Nothing while it is hidden. */
  readonly draw: (state: State, before: Engine | null, camera: Camera) => void;
}

export function createBeside(): Beside {
  const name = html('p', { class: 'sw-counter-which' }, 'Before');
  const drawing = html('div', { class: 'sw-counter-drawing' });
  const root = html('div', { class: 'sw-counter-pane', hidden: '' }, name, drawing);
  let drawn = '';
  return {
    root,
    draw: (state, before, camera) => {
      if (root.hidden || before === null) return;
      const { clientWidth: width, clientHeight: height } = drawing;
      if (width === 0 || height === 0) return;
      const { cylinder, crankAngleRad } = state;
      const ink = readInk();
      const key = JSON.stringify([cylinder, crankAngleRad, width, height, camera, ink]);
      if (drawn === key && drawing.firstChild !== null) return;
      drawn = key;
      drawing.innerHTML = svgSection({ ...sectionOf(state, before, width, height), ink, camera });
    },
    lie: (state, before, width, height) => {
      const scale = (w: number, h: number): number => cameraOf(sectionOf(state, before, w, h)).pxPerMm;
      return scale(width / 2, height) * WORTH_STACKING >= scale(width, height / 2) ? 'row' : 'column';
    },
  };
}

function sectionOf(
  { cylinder, crankAngleRad, units }: State,
  engine: Engine,
  width: number,
  height: number,
): SvgSection {
  return {
    engine,
    cylinder,
    crankAngleRad,
    gaps: [],
    picked: null,
    calledOut: [],
    ghost: null,
    figures: null,
    units,
    ink: readInk(),
    width,
    height,
    id: 'counter-before',
    title: `Before: section through cylinder ${cylinder}`,
  };
}
