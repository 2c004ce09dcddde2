/** The section as it stands on the page, and the section at the closest place of a gap: what a drawing of either is made from. */
import type { Gap } from '../../model/results.ts';
import type { State } from '../../model/state.ts';
import { bodiesInView, pairsInView } from '../inView.ts';
import { gapsShownNow, gapsSpokenOf } from '../scene/calledOut.ts';
import type { CalledOut } from './svgGaps.ts';
import type { SvgSection } from './svgSection.ts';

/** As many as the section on the screen calls out. */
const MOST = 3;

type Content = Pick<
  SvgSection,
  'engine' | 'cylinder' | 'crankAngleRad' | 'gaps' | 'picked' | 'calledOut' | 'figures' | 'units'
>;

/** What the page shows now. */
export function sectionNow(state: State): Content {
  const spoken = gapsSpokenOf(state, pairsInView(state.engine, bodiesInView(state)));
  const calledOut = gapsShownNow(spoken, state.now.gaps)
    .slice(0, MOST)
    .map((now): CalledOut => ({ ...now, gap: spoken.find(({ gap }) => gap.id === now.id)!.gap }));
  const { engine, cylinder, crankAngleRad, gaps, picked, figures, units } = state;
  return { engine, cylinder, crankAngleRad, gaps, picked, calledOut, figures, units };
}

/** The closest place of a gap over the whole turn: its cylinder, its crank angle, the gap alone called out. */
export function sectionAtGap(state: State, gap: Gap): Content {
  const calledOut = [{ gap, gapMm: gap.gapMm, state: gap.state, pointsMm: gap.pointsMm }];
  const { engine, gaps, figures, units } = state;
  return {
    engine,
    cylinder: gap.cylinder,
    crankAngleRad: gap.atCrankRad,
    gaps,
    picked: gap.id,
    calledOut,
    figures,
    units,
  };
}
