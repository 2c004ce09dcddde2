/** Keys that work anywhere on the page outside a field: turn, step, run, undo. */
import type { Store } from '../model/index.ts';

const DEGREE = Math.PI / 180;

export function listenToKeys(store: Store, back: () => boolean): void {
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && !event.defaultPrevented && document.querySelector('dialog[open]') === null) {
      if (back()) event.preventDefault();
      return;
    }
    workKeys(event, store);
  });
}

/** Turns, steps, runs or undoes in a store by a key; what it takes is marked as taken. */
export function workKeys(event: KeyboardEvent, store: Store): void {
  if (event.defaultPrevented || event.altKey) return;
  if (inField(event.target)) return;
  if (event.ctrlKey || event.metaKey) {
    if (event.key.toLowerCase() === 'z') {
      store.send({ do: event.shiftKey ? 'redo' : 'undo' });
      event.preventDefault();
    } else if (event.key.toLowerCase() === 'y') {
      store.send({ do: 'redo' });
      event.preventDefault();
    }
    return;
  }
  const turn = (degrees: number): void => {
    store.send({ do: 'turn to', crankAngleRad: store.state.crankAngleRad + degrees * DEGREE });
    event.preventDefault();
  };
  const step = (place: 'tdc' | 'bdc' | 'tightest'): void => {
    store.send({ do: 'step to', place });
    event.preventDefault();
  };
  switch (event.key) {
    case ' ':
      if (onButton(event.target)) return;
      store.send({ do: store.state.playing ? 'pause' : 'play' });
      event.preventDefault();
      break;
    case ',':
      turn(-1);
      break;
    case '.':
      turn(1);
      break;
    case '<':
      turn(-10);
      break;
    case '>':
      turn(10);
      break;
    case 't':
      step('tdc');
      break;
    case 'b':
      step('bdc');
      break;
    case 'g':
      step('tightest');
      break;
  }
}

function inField(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || ['INPUT', 'SELECT', 'TEXTAREA'].includes(target.tagName))
  );
}

function onButton(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement && target.closest('button, [role="button"], [role="slider"], a, summary, tr') !== null
  );
}
