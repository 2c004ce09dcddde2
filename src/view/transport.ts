/**
 * Turning the crank: run, stop, step to the places that matter, ten degrees on or back, speed of the picture. Beside
 * it, where the hand is, the caution.
 */
import type { State, Store } from '../model/state.ts';
import { html, setText } from './element.ts';
import { CAUTION } from './words.ts';

const STEP_RAD = (10 * Math.PI) / 180;
const SPEEDS_RPM = [1, 2, 5, 10, 20, 40];

export function createTransport(host: HTMLElement, store: Store): { destroy(): void } {
  const button = (text: string, label: string, run: () => void, more = ''): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: `sw-button${more}`, 'aria-label': label, title: label }, text);
    made.addEventListener('click', run);
    return made;
  };
  const turnBy = (rad: number) =>
    store.send({ do: 'turn to', crankAngleRad: wrapped(store.state.crankAngleRad + rad, store.state.engine.cycleRad) });

  const run = button(
    'Turn',
    'Turn the crank',
    () => store.send({ do: store.state.playing ? 'pause' : 'play' }),
    ' sw-button-main',
  );
  const back = button('−10°', '−10°: ten degrees back', () => turnBy(-STEP_RAD));
  const on = button('+10°', '+10°: ten degrees on', () => turnBy(STEP_RAD));
  const tdc = button('TDC', '', () => store.send({ do: 'step to', place: 'tdc' }));
  const bdc = button('BDC', '', () => store.send({ do: 'step to', place: 'bdc' }));
  const tightest = button('Tightest', 'Tightest place in the turn', () =>
    store.send({ do: 'step to', place: 'tightest' }),
  );
  const speed = html('select', {}, ...SPEEDS_RPM.map((rpm) => html('option', { value: String(rpm) }, `${rpm} rpm`)));
  speed.addEventListener('change', () => store.send({ do: 'play at', rpm: Number(speed.value) }));
  const row = html('div', { class: 'sw-transport-row', role: 'group', 'aria-label': 'Turning' });
  row.append(run, back, on, tdc, bdc, tightest, html('label', {}, 'Picture speed', speed));
  host.replaceChildren(html('div', { class: 'sw-transport-place' }, row, html('p', { class: 'sw-caution' }, CAUTION)));

  function show(state: State): void {
    setText(run, state.playing ? 'Stop' : 'Turn');
    run.setAttribute('aria-label', state.playing ? 'Stop the crank' : 'Turn the crank');
    run.title = run.getAttribute('aria-label') ?? '';
    for (const [made, words] of [
      [tdc, 'top'],
      [bdc, 'bottom'],
    ] as const) {
      made.setAttribute('aria-label', `${made.textContent}: ${words} dead centre of cylinder ${state.cylinder}`);
      made.title = made.getAttribute('aria-label') ?? '';
    }
    if (![...speed.options].some((o) => Number(o.value) === state.playRpm)) {
      speed.append(html('option', { value: String(state.playRpm) }, `${state.playRpm} rpm`));
    }
    speed.value = String(state.playRpm);
  }

  show(store.state);
  const stop = store.watch((state, changed) => {
    if (changed.has('playing') || changed.has('view') || changed.has('engine')) show(state);
  });
  return {
    destroy() {
      stop();
      host.replaceChildren();
    },
  };
}

function wrapped(angleRad: number, cycleRad: number): number {
  const rest = angleRad % cycleRad;
  return rest < 0 ? rest + cycleRad : rest;
}
