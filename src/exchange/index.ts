/** Public face of the exchange with other programs and the shop: points and drawings in, points, drawings and templates out. */
export { type FitFault, type FittedOutline, fitOutline, MOST_FIT_POINTS } from './fitOutline.ts';
export { asSeen, asSeenFromFront, type NamedOutline, type Rotation, type SeenFrom } from './front.ts';
export {
  GREATEST_DEVIATION_MM,
  type ImportedOutline,
  type ImportOptions,
  importOutline,
  LARGEST_FILE_BYTES,
  LEAST_DEVIATION_MM,
} from './importOutline.ts';
export { outlineToPoints } from './outlineToPoints.ts';
export { type CsvOptions, type CsvOutline, readOutlineCsv } from './readCsv.ts';
export { type DxfOptions, type DxfOutline, readOutlineDxf, USUAL_JOIN_MM } from './readDxf.ts';
export { svgPath } from './svgPath.ts';
export { type FileProblem, type FileUnit, fileProblemSentence, type Refused } from './units.ts';
export { type DxfWriting, layerNames, writeOutlineDxf } from './writeDxf.ts';
export { type SvgWriting, TEMPLATE_CAUTION, writeOutlineSvg } from './writeSvg.ts';
