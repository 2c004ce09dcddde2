/** Pixi draws again by itself when the drawing surface comes back; the reader is told if it does not. */

const LOST_FOR_GOOD_MS = 4000;

const LOST =
  'The browser took the drawing surface away and has not given it back. Reload the page to draw again; the figures are right.';

/** Calls `say` with the reason when a lost surface stays away, and with '' and `drawAgain` when it is back. Returns the way to stop. */
export function watchContext(
  canvas: HTMLCanvasElement,
  say: (words: string) => void,
  drawAgain: () => void,
): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const lost = () => {
    timer = setTimeout(() => say(LOST), LOST_FOR_GOOD_MS);
  };
  const restored = () => {
    clearTimeout(timer);
    say('');
    drawAgain();
  };
  canvas.addEventListener('webglcontextlost', lost);
  canvas.addEventListener('webglcontextrestored', restored);
  return () => {
    clearTimeout(timer);
    canvas.removeEventListener('webglcontextlost', lost);
    canvas.removeEventListener('webglcontextrestored', restored);
  };
}
