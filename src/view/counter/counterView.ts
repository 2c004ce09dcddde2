/**
 * The view for the customer: the section large, a caption, and no controls but turn, before and after, back and next. It
 * needs a store and nothing else of the page.
 */
import type { Engine } from '../../assembly/engine.ts';
import { replacedOf } from '../../model/replaced.ts';
import type { Gap } from '../../model/results.ts';
import type { Cures } from '../../model/solver.ts';
import type { State, Store } from '../../model/state.ts';
import { html, setText, svg } from '../element.ts';
import { createScene } from '../scene/scene.ts';
import { textScale } from '../textScale.ts';
import { readInk, wantsLessMotion } from '../theme.ts';
import { CAUTION, formatLength } from '../words.ts';
import { createBeside } from './beside.ts';
import { type Side, sideOf } from './compared.ts';
import { fitWords } from './fitWords.ts';
import { LIT_PX, litElements } from './lit.ts';
import { groundThrow, type Step, tourOf } from './tour.ts';

export interface CounterView {
  /** Begins the tour at its first step. */
  readonly show: () => void;
  /** Stops what moves, and gives back the assembly, the angle and the picked gap as they were. */
  readonly hide: () => void;
  readonly destroy: () => void;
}

export interface CounterOptions {
  /** The way back; without it there is no button for it. */
  readonly close?: () => void;
  /** Leads to the plain summary. */
  readonly summary?: () => void;
  readonly renderer?: 'webgl' | 'canvas';
}

/** The picture goes from step to step at this speed, rad/s: a turn in six seconds. */
const SWEEP_RAD_PER_S = (2 * Math.PI) / 6;
const TURN = 2 * Math.PI;
/** Longest stretch of time one frame may account for, s. */
const LONGEST_FRAME_S = 0.1;

/** What is on show, and what its button says. */
const CHOICES = { before: 'Before', both: 'Both', beside: 'Side by side', after: 'After' } as const;
type Shown = keyof typeof CHOICES;

export function createCounterView(host: HTMLElement, store: Store, options: CounterOptions = {}): CounterView {
  const button = (text: string, run: () => void, more = ''): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: `sw-counter-button${more}` }, text);
    made.addEventListener('click', run);
    return made;
  };
  const name = html('h1', { class: 'sw-counter-name' });
  const title = html('h2', { class: 'sw-counter-title' });
  const words = html('div', { class: 'sw-counter-words' });
  const said = html('div', { class: 'sw-counter-said', 'aria-live': 'polite' }, title, words);
  const count = html('p', { class: 'sw-counter-count' });
  const back = button('Back', () => go(at - 1));
  const next = button('Next', () => go(at + 1), ' sw-counter-main');
  const turn = button('Turn', () => store.send({ do: store.state.playing ? 'pause' : 'play' }));
  const shown = Object.keys(CHOICES) as Shown[];
  const choices = shown.map((which) =>
    button(CHOICES[which], () => {
      chosen = which;
      arrange();
    }),
  );
  const compare = html('div', { class: 'sw-counter-choice', role: 'group', 'aria-label': 'Parts shown' }, ...choices);
  const leave = options.close === undefined ? [] : [button('Back to the section', options.close, ' sw-counter-quiet')];
  const summary = options.summary === undefined ? [] : [button('Plain summary', options.summary, ' sw-counter-quiet')];
  const full =
    document.fullscreenEnabled === true
      ? [
          button(
            'Full screen',
            () => void (document.fullscreenElement === null ? host.requestFullscreen() : document.exitFullscreen()),
            ' sw-counter-quiet',
          ),
        ]
      : [];
  const over = svg('svg', { class: 'sw-counter-over', 'aria-hidden': 'true' });
  const which = html('p', { class: 'sw-counter-which', hidden: '' }, 'After');
  const section = html('div', { class: 'sw-counter-pane' });
  section.append(over, which);
  const beside = createBeside();
  const picture = html('div', { class: 'sw-counter-picture' }, beside.root, section);
  const root = html(
    'div',
    { class: 'sw-counter' },
    html(
      'header',
      { class: 'sw-counter-head' },
      name,
      html('span', { class: 'sw-counter-ways' }, ...summary, ...full, ...leave),
    ),
    picture,
    html(
      'div',
      { class: 'sw-counter-side' },
      said,
      html('div', { class: 'sw-counter-steps' }, turn, back, count, next),
      compare,
      html('p', { class: 'sw-counter-caution' }, CAUTION),
    ),
  );
  host.replaceChildren(root);

  const replaced = replacedOf(store);
  let scene: ReturnType<typeof createScene> | null = null;
  let up = false;
  let at = 0;
  let steps: readonly Step[] = [];
  let chosen: Shown = 'both';
  let incoming = '';
  let before: Engine | null = null;
  /** Of the assembly that goes in, as last certified. */
  let told: { engine: Engine; gaps: readonly Gap[]; cures: Cures | null } | null = null;
  let sides: { was: Side | null; now: Side } | null = null;
  let left: Pick<State, 'assembly' | 'crankAngleRad' | 'picked' | 'cylinder'> | null = null;
  let sweep = 0;

  function learn(state: State): void {
    if (state.refused.length > 0 || state.assembly !== incoming) return;
    before = replaced();
    told = { engine: state.engine, gaps: state.gaps, cures: state.cures };
    sides = {
      was: before === null ? null : sideOf(state.doc, before, state.cylinder),
      now: sideOf(state.doc, state.engine, state.cylinder),
    };
    const key = steps[at]?.key;
    const { doc, cylinder, units } = state;
    steps = tourOf({ doc, before, after: told.engine, cylinder, gaps: told.gaps, cures: told.cures, units });
    at = Math.max(
      0,
      steps.findIndex((s) => s.key === key),
    );
  }

  function say(): void {
    const step = steps[at];
    if (step === undefined) return;
    setText(name, store.state.doc.name);
    setText(title, step.title);
    const sentences = step.sentences.join('\n');
    if (words.dataset['said'] !== sentences) {
      words.dataset['said'] = sentences;
      words.replaceChildren(...step.sentences.map((s) => html('p', {}, s)));
      fitWords(said);
    }
    setText(count, `${at + 1} of ${steps.length}`);
    back.disabled = at === 0;
    next.disabled = at + 1 === steps.length;
    setText(turn, store.state.playing ? 'Stop' : 'Turn');
    compare.hidden = before === null;
    choices.forEach((choice, k) => {
      choice.setAttribute('aria-pressed', String(shown[k] === chosen));
    });
  }

  /** Brings the assembly, the ghost and the picked gap in line with what is to be seen. */
  function arrange(): void {
    const { doc, assembly, picked } = store.state;
    const wanted = chosen === 'before' ? doc.replaced : incoming;
    if (assembly !== wanted) store.send({ do: 'show assembly', name: wanted });
    const gap = chosen === 'before' ? null : (steps[at]?.gapId ?? null);
    if (picked !== gap) store.send({ do: 'pick', id: gap });
    beside.root.hidden = which.hidden = chosen !== 'beside';
    if (before !== null)
      picture.dataset['lie'] = beside.lie(store.state, before, picture.clientWidth, picture.clientHeight);
    scene?.showGhost(chosen === 'both');
    scene?.showTold(gap === null ? 'nothing' : 'gaps');
    say();
    scene?.renderNow();
  }

  function go(to: number): void {
    if (to < 0 || to >= steps.length) return;
    at = to;
    const step = steps[at]!;
    chosen = before === null ? 'after' : step.show;
    store.send({ do: 'pause' });
    arrange();
    const { crankAngleRad, engine } = store.state;
    const cylinder = engine.cylinders.find((c) => c.number === store.state.cylinder)!;
    const { turn: way } = step;
    const aim =
      way.kind === 'round'
        ? crankAngleRad + TURN
        : way.kind === 'to'
          ? way.crankAngleRad
          : cylinder.firingTdcRad + way.rad;
    let ahead = (((aim - crankAngleRad) % engine.cycleRad) + engine.cycleRad) % engine.cycleRad;
    // What repeats each turn needs no second one.
    if (way.kind === 'after TDC') ahead %= TURN;
    turnAhead(way.kind === 'round' ? TURN : ahead, aim);
  }

  function turnAhead(ahead: number, aim: number): void {
    cancelAnimationFrame(sweep);
    sweep = 0;
    if (wantsLessMotion()) {
      store.send({ do: 'turn to', crankAngleRad: aim });
      return;
    }
    let last = 0;
    let leftRad = ahead;
    const frame = (now: number): void => {
      const seconds = last === 0 ? 0 : Math.min((now - last) / 1000, LONGEST_FRAME_S);
      last = now;
      const by = Math.min(leftRad, seconds * SWEEP_RAD_PER_S);
      leftRad -= by;
      if (by > 0) store.send({ do: 'turn to', crankAngleRad: store.state.crankAngleRad + by });
      sweep = leftRad > 1e-9 && up ? requestAnimationFrame(frame) : 0;
    };
    sweep = requestAnimationFrame(frame);
  }

  const stopWatching = store.watch((state, changed) => {
    if (!up) return;
    if (state.playing && sweep !== 0) {
      cancelAnimationFrame(sweep);
      sweep = 0;
    }
    if (
      changed.has('engine') ||
      changed.has('gaps') ||
      changed.has('cures') ||
      changed.has('units') ||
      changed.has('document')
    )
      learn(state);
    if (changed.size > 1 || !changed.has('angle')) say();
  });

  const sized = new ResizeObserver(() => fitWords(said));
  sized.observe(root);

  root.addEventListener('keydown', (event) => {
    if (event.target instanceof Element && event.target.closest('canvas') !== null) return;
    if (event.key === 'ArrowRight' || event.key === 'PageDown') go(at + 1);
    else if (event.key === 'ArrowLeft' || event.key === 'PageUp') go(at - 1);
    else return;
    event.preventDefault();
  });

  return {
    show: () => {
      const { doc, assembly, crankAngleRad, picked, cylinder } = store.state;
      left = { assembly, crankAngleRad, picked, cylinder };
      incoming = assembly === doc.replaced ? doc.proposed : assembly;
      up = true;
      at = 0;
      steps = [];
      store.send({ do: 'pause' });
      if (assembly !== incoming) store.send({ do: 'show assembly', name: incoming });
      scene ??= createScene(section, store, {
        ghost: replaced,
        ...(options.renderer === undefined ? {} : { renderer: options.renderer }),
        drawn: (camera) => {
          beside.draw(store.state, before, camera);
          const step = steps[at];
          if (step === undefined || sides === null) return;
          const { doc, units, crankAngleRad: angle } = store.state;
          const lit = chosen === 'before' ? 'nothing' : step.lit;
          const { was, now } = sides;
          const ground = step.lit === 'grind' ? groundThrow(doc, incoming, now.cylinder.throw) : null;
          const length = (mm: number): string => formatLength(mm, units);
          const drawn = { lit, was: chosen === 'both' ? was : null, now, ground, crankAngleRad: angle, camera };
          over.innerHTML = litElements({ ...drawn, ink: readInk(), length, lettersPx: LIT_PX * textScale() });
        },
      });
      scene.showDimensions(false);
      learn(store.state);
      go(0);
      next.focus();
    },
    hide: () => {
      up = false;
      cancelAnimationFrame(sweep);
      sweep = 0;
      store.send({ do: 'pause' });
      if (document.fullscreenElement === host) void document.exitFullscreen();
      if (left === null) return;
      if (store.state.doc.assemblies.some((a) => a.name === left!.assembly) && store.state.assembly !== left.assembly)
        store.send({ do: 'show assembly', name: left.assembly });
      store.send({ do: 'pick', id: left.picked });
      store.send({ do: 'turn to', crankAngleRad: left.crankAngleRad });
    },
    destroy: () => {
      up = false;
      cancelAnimationFrame(sweep);
      stopWatching();
      sized.disconnect();
      scene?.destroy();
      root.remove();
    },
  };
}
