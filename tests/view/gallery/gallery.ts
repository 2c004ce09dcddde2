/** The gallery page: every part of the view on an invented engine; what it shows is said by the address. */

import { layOut } from '../../../src/assembly/index.ts';
import type { Store } from '../../../src/model/state.ts';
import { createGapTable } from '../../../src/view/gapTable.ts';
import {
  createAngleRuler,
  createReadout,
  createScene,
  createSideStrip,
  createTransport,
  createVerdict,
  type Scene,
  setTheme,
} from '../../../src/view/index.ts';
import { exampleInline6, exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';
import { inventedEngine, inventedStore } from './invented.ts';

declare global {
  interface Window {
    gallery: { scene: Scene; store: Store };
  }
}

const asked = new URLSearchParams(location.search);
const theme = asked.get('theme');
setTheme(theme === 'dark' || theme === 'light' ? theme : 'system');
const mirrored = asked.has('mirrored');
const builds = { v8: exampleV8, six: exampleInline6, single: exampleSingle };
const named = asked.get('build');
const doc = named !== null && named in builds ? builds[named as keyof typeof builds]() : null;
const store = inventedStore({
  mirrored,
  fits: asked.has('fits'),
  refused: asked.has('refused'),
  cylinder: Number(asked.get('cylinder') ?? 3),
  angleDeg: Number(asked.get('angle') ?? 84),
  ...(doc === null ? {} : { laidOut: layOut(doc, doc.proposed) }),
  units: asked.get('units') === 'in' ? 'in' : asked.get('units') === 'mm' ? 'mm' : 'both',
});
const host = (id: string): HTMLElement => document.getElementById(id)!;
createVerdict(host('verdict'), store);
createSideStrip(host('strip'), store);
createAngleRuler(host('ruler'), store);
createTransport(host('transport'), store);
createReadout(host('readout'), store);
createGapTable(host('gaps'), store);
const scene = createScene(host('section'), store, {
  ...(asked.get('renderer') === 'canvas' ? { renderer: 'canvas' as const } : {}),
  ghost: () => inventedEngine(mirrored),
});
window.gallery = { scene, store };
await scene.ready;
if (asked.has('ghost')) scene.showGhost(true);
document.body.dataset['ready'] = scene.drawnBy();
