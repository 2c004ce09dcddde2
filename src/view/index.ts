/** Public face of the view: the section and the panels round it. Styles stand in style.css. */
export { createAngleRuler } from './angleRuler.ts';
export { createFitMap } from './fitMap/fitMap.ts';
export { createGapTable } from './gapTable.ts';
export { gapSentence, verdictHeadline, verdictSentence, worstGap } from './gapWords.ts';
export { createInWords } from './inWords.ts';
export { createReadout, formatAcceleration, formatDisplacement, formatSpeed } from './readout.ts';
export { createScalarTable } from './scalarTable.ts';
export { createScene, type Scene, type SceneOptions } from './scene/scene.ts';
export { createSideStrip } from './sideStrip.ts';
export { setTheme, type ThemeChoice, themeChoice, wantsLessMotion, watchTheme } from './theme.ts';
export { createThisGap } from './thisGap/page.ts';
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
