/** Public face of the view for the first picture: the section and what stands round it. Its further pages are imported by their files. Styles stand in style.css. */
export { createAngleRuler } from './angleRuler.ts';
export { gapSentence, verdictHeadline, verdictSentence, worstGap } from './gapWords.ts';
export { createReadout, formatAcceleration, formatDisplacement, formatSpeed } from './readout.ts';
export { createScene, type Scene, type SceneOptions } from './scene/scene.ts';
export { createSideStrip } from './sideStrip.ts';
export { setTheme, type ThemeChoice, themeChoice, wantsLessMotion, watchTheme } from './theme.ts';
export { createTransport } from './transport.ts';
export { createVerdict } from './verdict.ts';
export {
  CAUTION,
  formatAngleFromTdc,
  formatAngleShort,
  formatDegrees,
  formatGap,
  formatLength,
  gapLabel,
} from './words.ts';
