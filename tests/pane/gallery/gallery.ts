/** The pane alone, with a small build: `?theme=dark`, `?sheet` for the full width, `?open` for all folders open, `?without=camshaft`. */
import { createPane } from '../../../src/pane/pane.ts';
import { SAMPLE } from '../sampleBuild.ts';
import { createFakeStore } from './fakeStore.ts';

const asked = new URLSearchParams(location.search);
document.documentElement.dataset['theme'] = asked.get('theme') ?? 'light';
if (asked.has('sheet')) document.documentElement.dataset['sheet'] = '';

const store = createFakeStore(asked.get('without') === 'camshaft' ? withoutCamshaft() : SAMPLE);
const pane = createPane(document.querySelector<HTMLElement>('#host')!, store);
if (asked.has('open')) {
  for (const button of document.querySelectorAll<HTMLElement>('.tp-fldv_b[aria-expanded="false"]')) button.click();
}
Object.assign(window, { store, pane });

function withoutCamshaft(): typeof SAMPLE {
  const { camAxis: _axis, ...block } = SAMPLE.block;
  return { ...SAMPLE, block, assemblies: SAMPLE.assemblies.map(({ camshaft: _camshaft, ...rest }) => rest) };
}
