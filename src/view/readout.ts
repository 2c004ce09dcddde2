/** Figures of the assembly and of the chosen piston now: a short list of names and values. */
import type { State, Store, Units } from '../model/state.ts';
import { html, setText } from './element.ts';
import { formatAngleShort, formatDegrees, formatFixed, formatLength } from './words.ts';

const M_PER_FOOT = 0.3048;
const CM3_PER_INCH3 = 2.54 ** 3;

function inUnits(units: Units, metric: string, inch: string): string {
  if (units === 'mm') return metric;
  return units === 'in' ? inch : `${metric} (${inch})`;
}

/** "−2.01 m/s (−6.6 ft/s)"; positive is outward, away from the crank. */
export function formatSpeed(mPerS: number, units: Units): string {
  return inUnits(units, `${formatFixed(mPerS, 2)} m/s`, `${formatFixed(mPerS / M_PER_FOOT, 1)} ft/s`);
}

export function formatAcceleration(mPerS2: number, units: Units): string {
  return inUnits(units, `${formatFixed(mPerS2, 0)} m/s²`, `${formatFixed(mPerS2 / M_PER_FOOT, 0)} ft/s²`);
}

export function formatDisplacement(cm3: number, units: Units): string {
  return inUnits(units, `${formatFixed(cm3, 0)} cm³`, `${formatFixed(cm3 / CM3_PER_INCH3, 1)} in³`);
}

export function createReadout(host: HTMLElement, store: Store): { destroy(): void } {
  const nowTitle = html('h3', { class: 'sw-readout-title' });
  const nowList = html('dl', { class: 'sw-readout' });
  const setTitle = html('h3', { class: 'sw-readout-title' }, 'This assembly');
  const setList = html('dl', { class: 'sw-readout' });
  host.replaceChildren(html('div', {}, nowTitle, nowList), html('div', {}, setTitle, setList));

  function fill(list: HTMLElement, entries: readonly (readonly [string, string])[]): void {
    entries.forEach(([name, value], k) => {
      const term = list.children[2 * k] ?? list.appendChild(html('dt'));
      const said = list.children[2 * k + 1] ?? list.appendChild(html('dd'));
      setText(term, name);
      setText(said, value);
    });
    while (list.children.length > 2 * entries.length) list.lastElementChild?.remove();
  }

  function showAssembly({ figures, units }: State): void {
    const travelDiffers = Math.abs(figures.travelMm - figures.strokeMm) >= 0.005;
    fill(setList, [
      ['Stroke', formatLength(figures.strokeMm, units)],
      ...(travelDiffers ? [['Piston travel, with offset', formatLength(figures.travelMm, units)] as const] : []),
      ['Displacement', formatDisplacement(figures.displacementCm3, units)],
      ['Rod ratio', formatFixed(figures.rodRatio, 3)],
      ['Compression height', formatLength(figures.compressionHeightMm, units)],
      ['Deck clearance', formatLength(figures.deckClearanceMm, units)],
    ]);
  }

  function showNow({ now: { motion }, units, doc, engine, crankAngleRad }: State): void {
    const cylinder = engine.cylinders.find((c) => c.number === motion.cylinder);
    const where = cylinder === undefined ? '' : `, ${formatAngleShort(crankAngleRad, cylinder, 2 * Math.PI)}`;
    setText(nowTitle, `Piston ${motion.cylinder} now${where}`);
    fill(nowList, [
      ['Below TDC', formatLength(motion.belowTdcMm, units)],
      [`Speed, ${doc.speed.value}`, formatSpeed(motion.speedMPerS, units)],
      ['Acceleration', formatAcceleration(motion.accelMPerS2, units)],
      ['Rod angle', formatDegrees(motion.rodAngleRad)],
    ]);
  }

  showAssembly(store.state);
  showNow(store.state);
  const stop = store.watch((state, changed) => {
    if (changed.has('engine') || changed.has('units') || changed.has('document')) showAssembly(state);
    showNow(state);
  });
  return {
    destroy() {
      stop();
      host.replaceChildren();
    },
  };
}
