/** Public face: an assembly of a build as bodies and pairs. */
export * from './engine.ts';
export { layOut } from './layOut.ts';
export { joined } from './pairs.ts';
