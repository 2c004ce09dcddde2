/** Public face of the control pane. */
export { createCures } from './cureList.ts';
export { SHOP_FIELDS } from './fieldsShop.ts';
export { createMockUpPage } from './mockUp/page.ts';
export { createPane } from './pane.ts';
