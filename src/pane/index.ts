/** Public face of the control pane. */
export { createBandPanel } from './bandPanel.ts';
export { createCures } from './cureList.ts';
export { RUNNING_FIELDS } from './fieldsRunning.ts';
export { createMockUpPage } from './mockUp/page.ts';
export { createOutlinesPage } from './outlines/page.ts';
export { createPane } from './pane.ts';
export { createShopFigures } from './shopFigures.ts';
export { createTolerancesPage } from './tolerances/page.ts';
