/** Public face of the control pane. */
export { createCures } from './cureList.ts';
export { createPane } from './pane.ts';
