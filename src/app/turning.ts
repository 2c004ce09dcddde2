/** Turns the crank with the clock while the state says so: picture speed in crank revolutions a minute. */
import type { Store } from '../model/index.ts';

/** Longest stretch of time one frame may account for, s: after a pause of the page the crank goes on, it does not jump. */
const LONGEST_FRAME_S = 0.1;

export function keepTurning(store: Store): void {
  let last = 0;
  let frame = 0;
  const step = (now: number): void => {
    const seconds = last === 0 ? 0 : Math.min((now - last) / 1000, LONGEST_FRAME_S);
    last = now;
    const { crankAngleRad, playRpm } = store.state;
    if (seconds > 0)
      store.send({ do: 'turn to', crankAngleRad: crankAngleRad + (playRpm / 60) * 2 * Math.PI * seconds });
    frame = store.state.playing ? requestAnimationFrame(step) : 0;
  };
  store.watch((state, changed) => {
    if (!changed.has('playing') || !state.playing || frame !== 0) return;
    last = 0;
    frame = requestAnimationFrame(step);
  });
}
