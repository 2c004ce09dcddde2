/** A picture of the section as it stands now: a drawing (SVG) or a bitmap (PNG), with a preview. */
import { replacedOf } from '../../model/replaced.ts';
import type { Store } from '../../model/state.ts';
import { html } from '../element.ts';
import type { Shown } from '../paper/sections.ts';
import { sectionNow } from '../svgSection/atState.ts';
import { PRINT_INK, svgSection } from '../svgSection/svgSection.ts';
import { readInk } from '../theme.ts';
import { formatAngleShort } from '../words.ts';
import { button, choice, tick } from './controls.ts';
import { paint, pngOf } from './paint.ts';
import { inTheWay } from './ready.ts';

/** The drawing is laid out at this size; a bitmap is as many times as sharp as it is larger. */
const WIDTH = 960;
const HEIGHT = 640;

/** `save` hands a file to the browser under a name that ends with what is given. */
export function createPictureSection(host: HTMLElement, store: Store, save: (blob: Blob, end: string) => void): Shown {
  const replaced = replacedOf(store);
  const dimensions = tick('Dimension lines', true, show);
  const ghost = tick('Parts taken out, dashed', false, show);
  const paper = choice(
    'Paper',
    [
      ['white', 'White, for print'],
      ['screen', 'As on the screen'],
    ],
    show,
  );
  const size = choice(
    'Width of the PNG',
    ['960', '1920', '2880', '3840'].map((w) => [w, `${w} px`] as const),
    () => {},
    '1920',
  );
  const asSvg = button(
    'Save as SVG',
    () => save(new Blob([drawing()], { type: 'image/svg+xml' }), 'section.svg'),
    true,
  );
  const asPng = button('Save as PNG', () => void png(), true);
  const preview = html('img', { class: 'sw-clip-preview', alt: '' });
  const said = html('p', { class: 'sw-clip-said', role: 'status' });
  host.replaceChildren(
    html('p', {}, 'The section at the crank angle where it stands now. Go back to the section to turn it elsewhere.'),
    html('div', { class: 'sw-clip-row' }, dimensions.row, ghost.row, paper.row, size.row),
    html('div', { class: 'sw-clip-row' }, asSvg, asPng),
    said,
    preview,
  );
  let url = '';
  let up = false;
  // The proofs may come in while the page is up.
  store.watch((_, changed) => {
    if (changed.has('document') || changed.has('engine') || changed.has('gaps')) show();
  });

  function drawing(): string {
    const { state } = store;
    const now = sectionNow(state);
    const cylinder = state.engine.cylinders.find((c) => c.number === state.cylinder)!;
    const where = formatAngleShort(state.crankAngleRad, cylinder, state.engine.cycleRad);
    return svgSection({
      ...now,
      figures: dimensions.box.checked ? now.figures : null,
      ghost: ghost.box.checked ? replaced() : null,
      ink: paper.value() === 'white' ? PRINT_INK : readInk(),
      width: WIDTH,
      height: HEIGHT,
      id: 'picture',
      title: `${state.doc.name}, ${state.assembly}: section through cylinder ${state.cylinder}, ${where}`,
    });
  }

  async function png(): Promise<void> {
    const wide = Number(size.value());
    try {
      const canvas = document.createElement('canvas');
      await paint(canvas, drawing(), wide, Math.round((wide * HEIGHT) / WIDTH));
      save(await pngOf(canvas), 'section.png');
      said.textContent = '';
    } catch (error) {
      said.textContent = `The picture can’t be made here: ${error instanceof Error ? error.message : String(error)}. The drawing (SVG) can.`;
    }
  }

  function show(): void {
    if (!up) return;
    ghost.row.hidden = replaced() === null;
    const obstacle = inTheWay(store.state);
    asSvg.disabled = asPng.disabled = preview.hidden = obstacle !== '';
    said.textContent = obstacle;
    if (obstacle !== '') return;
    const text = drawing();
    URL.revokeObjectURL(url);
    url = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
    preview.src = url;
    preview.alt = /<title[^>]*>([^<]*)/.exec(text)?.[1] ?? '';
  }

  return {
    shown: () => {
      up = true;
      show();
    },
    hidden: () => {
      up = false;
      URL.revokeObjectURL(url);
    },
  };
}
