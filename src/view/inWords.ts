/**
 * What the section shows, said in words: the parts in view and where each stands at this crank angle, and the gaps between them,
 * now and at their smallest. Kept up only while it is shown and the crank stands.
 */
import type { Body } from '../assembly/engine.ts';
import { trueGapMm } from '../model/now.ts';
import type { Gap } from '../model/results.ts';
import { type Standing, standing } from '../model/standing.ts';
import type { State, Store } from '../model/state.ts';
import { html, setText } from './element.ts';
import { bodiesInView, chosenCylinder, isMoving, leadingGaps, pairsInView, type Seen } from './inView.ts';
import { formatSpeed } from './readout.ts';
import { gapsSpokenOf } from './scene/calledOut.ts';
import {
  bodyPhrase,
  formatAngleFromTdc,
  formatAngleShort,
  formatDegrees,
  formatGap,
  formatLength,
  gapLabel,
} from './words.ts';
import './inWords.css';

/** A piston slower than this stands, m/s. */
const STANDS_BELOW_M_PER_S = 0.005;

/** Where a body stands, in a phrase. `what`: of a body that turns, the side that points. */
export function standingWords(at: Standing, what: string, units: State['units']): string {
  switch (at.kind) {
    case 'fixed':
      return 'fixed';
    case 'turned':
      return `${what} points ${formatDegrees(at.pointsRad)} clockwise of straight up`;
    case 'rod': {
      const [x, y] = at.bigEndMm;
      const lean = formatDegrees(Math.abs(at.leanRad));
      const leans = /[1-9]/.test(lean) ? `leans ${lean} to the ${at.leanRad > 0 ? 'right' : 'left'}` : 'stands upright';
      return (
        `${leans}; big end ${formatLength(Math.abs(x), units)} to the ${x < 0 ? 'left' : 'right'} of and ` +
        `${formatLength(Math.abs(y), units)} ${y < 0 ? 'below' : 'above'} the crank axis`
      );
    }
    case 'piston': {
      const goes =
        Math.abs(at.speedMPerS) < STANDS_BELOW_M_PER_S
          ? 'standing at its dead centre'
          : `moving ${at.speedMPerS < 0 ? 'inward' : 'outward'} at ${formatSpeed(Math.abs(at.speedMPerS), units)}`;
      return `${formatLength(at.belowTdcMm, units)} below top dead centre, ${goes}`;
    }
    case 'valve':
      return at.liftMm < 0.005 ? 'shut' : `open by ${formatLength(at.liftMm, units)}`;
  }
}

/** Fills `host` while it is shown. */
export function createInWords(host: HTMLElement, store: Store): { destroy(): void } {
  const where = html('p');
  const parts = table('Parts', ['Part', 'Where it stands']);
  const gaps = table('Gaps', ['Between', 'Now', 'Smallest', 'State']);
  host.replaceChildren(
    html('div', { class: 'sw-in_words' }, html('h2', {}, 'The section in words'), where, parts.whole, gaps.whole),
  );

  function show(state: State): void {
    if (host.hidden || state.playing || isMoving(state)) return;
    const { engine, crankAngleRad } = state;
    const chosen = chosenCylinder(state);
    setText(
      where,
      `Section through cylinder ${chosen.number}, seen from the front, crank ${formatAngleFromTdc(crankAngleRad, chosen, engine.cycleRad)}. ` +
        'Parts are cut unless it says behind. It follows when the crank stops.',
    );
    const seen = bodiesInView(state);
    parts.fill(once(seen).map(({ body, role }) => partRow(state, body, role)));
    const ids = pairsInView(engine, seen);
    const called = new Set(gapsSpokenOf(state, ids).map((spoken) => spoken.gap.id));
    gaps.fill(leadingGaps(state, ids, ids.size + 1).map((gap) => gapRow(state, gap, called.has(gap.id))));
  }

  show(store.state);
  const watchShown = new MutationObserver(() => show(store.state));
  watchShown.observe(host, { attributes: true, attributeFilter: ['hidden'] });
  const stop = store.watch(show);
  return {
    destroy() {
      stop();
      watchShown.disconnect();
      host.replaceChildren();
    },
  };
}

/** Bodies drawn in two pieces, as a piston and its pin, are one part. */
function once(seen: readonly Seen[]): readonly Seen[] {
  return seen.filter((one, k) => seen.findIndex((other) => other.body === one.body) === k).reverse();
}

function partRow(state: State, body: Body, role: Seen['role']): readonly string[] {
  const name = body.kind === 'journal' ? `the crank at throw ${body.throw ?? ''}`.trim() : bodyPhrase(body, '');
  const side = body.kind === 'lobe' ? 'nose' : body.kind === 'journal' ? 'crankpin' : 'crankpin side';
  return [
    `${name.replace(/^the /, '')}${role === 'cut' ? '' : ', behind'}`,
    standingWords(standing(state, body), side, state.units),
  ];
}

function gapRow(state: State, gap: Gap, called: boolean): readonly string[] {
  const { units, engine } = state;
  const pair = engine.pairs.find((one) => one.id === gap.id);
  const gapMm = pair === undefined ? null : trueGapMm(pair, state.crankAngleRad);
  const cylinder = engine.cylinders.find((one) => one.number === gap.cylinder);
  const at = cylinder === undefined ? '' : `, ${formatAngleShort(gap.atCrankRad, cylinder, gap.periodRad)}`;
  return [
    gapLabel(gap),
    gapMm === null ? 'not worked out' : formatGap({ ...gap, gapMm, slicingMm: 0 }, units),
    `${formatGap(gap, units)}${at}`,
    called ? `${gap.state}, called out` : gap.state,
  ];
}

/** A table whose rows are kept: only words that changed are set. */
function table(caption: string, heads: readonly string[]) {
  const body = html('tbody');
  const whole = html(
    'table',
    {},
    html('caption', {}, caption),
    html('thead', {}, html('tr', {}, ...heads.map((head) => html('th', { scope: 'col' }, head)))),
    body,
  );
  const fill = (rows: readonly (readonly string[])[]): void => {
    rows.forEach((cells, k) => {
      const row =
        body.rows[k] ??
        body.appendChild(html('tr', {}, html('th', { scope: 'row' }), ...heads.slice(1).map(() => html('td'))));
      cells.forEach((words, n) => {
        setText(row.cells[n]!, words);
      });
    });
    while (body.rows.length > rows.length) body.lastElementChild?.remove();
  };
  return { whole, fill };
}
