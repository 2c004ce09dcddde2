/** How large the reader has text: drawings that hold words grow with it. */

/** Size of the root's letters that the style sheets are written for, px. */
const USUAL_PX = 16;

/** Times the usual size, as set in the browser. What draws in px of its own divides the room it has by this, and is shown this much larger. */
export function textScale(): number {
  const px = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return px > 0 ? px / USUAL_PX : 1;
}
