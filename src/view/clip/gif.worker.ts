/** Puts frames into a GIF, off the page: one palette for all of them, from the samples that come first. */
import { applyPalette, GIFEncoder, type Palette, quantize } from 'gifenc';

export type ToGif =
  /** A picture whose colours the palette must have. */
  | { readonly do: 'sample'; readonly rgba: Uint8ClampedArray<ArrayBuffer> }
  | {
      readonly do: 'frame';
      readonly rgba: Uint8ClampedArray<ArrayBuffer>;
      readonly width: number;
      readonly height: number;
      readonly delayMs: number;
    }
  | { readonly do: 'finish' };
export type FromGif =
  | { readonly done: 'sample' | 'frame' }
  | { readonly done: 'file'; readonly bytes: Uint8Array<ArrayBuffer> };

/** Colours of a GIF. */
const MOST_COLOURS = 256;

const gif = GIFEncoder();
let palette: Palette | null = null;
let samples = new Uint8Array(0);

addEventListener('message', (event: MessageEvent<ToGif>) => {
  const asked = event.data;
  if (asked.do === 'sample') {
    const longer = new Uint8Array(samples.length + asked.rgba.length);
    longer.set(samples);
    longer.set(asked.rgba, samples.length);
    samples = longer;
    postMessage({ done: 'sample' } satisfies FromGif);
    return;
  }
  if (asked.do === 'frame') {
    const first = palette === null;
    palette ??= quantize(samples.length > 0 ? samples : asked.rgba, MOST_COLOURS);
    samples = new Uint8Array(0);
    const index = applyPalette(asked.rgba, palette);
    // The palette goes with the first frame and holds for all; 0: round and round without end.
    gif.writeFrame(index, asked.width, asked.height, {
      delay: asked.delayMs,
      ...(first ? { palette, repeat: 0 } : {}),
    });
    postMessage({ done: 'frame' } satisfies FromGif);
    return;
  }
  gif.finish();
  const bytes = gif.bytes().slice();
  postMessage({ done: 'file', bytes } satisfies FromGif, { transfer: [bytes.buffer] });
});
