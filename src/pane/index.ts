/** Public face of the control pane. */
export { createPane } from './pane.ts';
