/** What marks and dimension lines are drawn with: the section's graphics on the screen, or a drawing on paper. Px, y down. */
export interface Pen {
  moveTo(x: number, y: number): this;
  lineTo(x: number, y: number): this;
  quadraticCurveTo(cx: number, cy: number, x: number, y: number): this;
  circle(x: number, y: number, radius: number): this;
  poly(points: number[]): this;
  /** Draws what was laid down since the last stroke or fill; a colour is 0xRRGGBB. */
  stroke(how: { readonly width: number; readonly color: number; readonly cap?: 'round' }): this;
  fill(how: { readonly color: number; readonly alpha?: number }): this;
}
