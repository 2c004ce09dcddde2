/** Frames into a file: MP4 or WebM by the browser's own encoder, or GIF by a worker of ours. */
import type { FromGif, ToGif } from './gif.worker.ts';
import GifWorker from './gif.worker.ts?worker';
import { paint } from './paint.ts';

export type Kind = 'mp4' | 'webm' | 'gif';

export interface Making {
  readonly kind: Kind;
  readonly width: number;
  readonly height: number;
  readonly framesPerS: number;
  readonly count: number;
  /** The drawing of a frame; null where it is the one before it, unless it is wanted `anew`. */
  readonly draw: (frame: number, anew?: boolean) => string | null;
  /** Whether every picture differs from the one before it. */
  readonly moving: boolean;
  /** After each frame. */
  readonly progress: (done: number) => void;
  readonly signal: AbortSignal;
}

/**
 * Bits for each px and frame. Fine hatching on parts that move is lost below some 0.2, and the colours of thin marks run; where the
 * picture mostly stands, as in the tour, half of it does (looked at on clips of 640 px).
 */
const BITS_A_PX = { moving: 0.24, standing: 0.12 } as const;
const LEAST_BITS_PER_S = 400_000;
/** Pictures spread over a GIF from which its colours are taken. */
const SAMPLES = 8;

/** What this browser can write at a size; GIF needs no encoder of it. */
export async function kindsHere(width: number, height: number): Promise<Kind[]> {
  if (typeof VideoEncoder === 'undefined') return ['gif'];
  const { canEncodeVideo } = await import('mediabunny');
  const kinds: Kind[] = [];
  if (await canEncodeVideo('avc', { width, height })) kinds.push('mp4');
  if ((await canEncodeVideo('vp9', { width, height })) || (await canEncodeVideo('vp8', { width, height })))
    kinds.push('webm');
  return [...kinds, 'gif'];
}

/** The file; throws DOMException "AbortError" once the signal says so. Each frame is drawn once, between frames of the page. */
export async function encode(what: Making): Promise<Blob> {
  return what.kind === 'gif' ? gif(what) : video(what);
}

async function video(what: Making): Promise<Blob> {
  const mux = await import('mediabunny');
  const { BufferTarget, CanvasSource, canEncodeVideo, Mp4OutputFormat, Output, WebMOutputFormat } = mux;
  const { width, height, framesPerS, count } = what;
  const codec = what.kind === 'mp4' ? 'avc' : (await canEncodeVideo('vp9', { width, height })) ? 'vp9' : 'vp8';
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [width, height];
  const target = new BufferTarget();
  const output = new Output({
    format: what.kind === 'mp4' ? new Mp4OutputFormat() : new WebMOutputFormat(),
    target,
  });
  const bitrate = Math.max(
    LEAST_BITS_PER_S,
    Math.round(width * height * framesPerS * BITS_A_PX[what.moving ? 'moving' : 'standing']),
  );
  const source = new CanvasSource(canvas, { codec, bitrate });
  output.addVideoTrack(source, { frameRate: framesPerS });
  await output.start();
  try {
    for (let k = 0; k < count; k++) {
      what.signal.throwIfAborted();
      const drawing = what.draw(k);
      if (drawing !== null) await paint(canvas, drawing, width, height);
      await source.add(k / framesPerS, 1 / framesPerS);
      what.progress(k + 1);
      await pageFrame();
    }
    await output.finalize();
  } catch (error) {
    await output.cancel();
    throw error;
  }
  return new Blob([target.buffer!], { type: what.kind === 'mp4' ? 'video/mp4' : 'video/webm' });
}

async function gif(what: Making): Promise<Blob> {
  const { width, height, count, framesPerS } = what;
  const canvas = document.createElement('canvas');
  const worker = new GifWorker();
  const ask = (message: ToGif, transfer: Transferable[] = []): Promise<FromGif> =>
    new Promise((done, failed) => {
      worker.onmessage = (event: MessageEvent<FromGif>): void => done(event.data);
      worker.onerror = (event): void => failed(new Error(event.message));
      worker.postMessage(message, transfer);
    });
  const pixels = async (k: number, anew: boolean): Promise<Uint8ClampedArray<ArrayBuffer>> => {
    what.signal.throwIfAborted();
    const drawing = what.draw(k, anew);
    if (drawing !== null) await paint(canvas, drawing, width, height);
    return canvas.getContext('2d')!.getImageData(0, 0, width, height).data as Uint8ClampedArray<ArrayBuffer>;
  };
  try {
    for (let n = 0; n < SAMPLES; n++) {
      what.signal.throwIfAborted();
      const rgba = await pixels(Math.floor((n * count) / SAMPLES), true);
      await ask({ do: 'sample', rgba }, [rgba.buffer]);
    }
    for (let k = 0; k < count; k++) {
      const rgba = await pixels(k, k === 0);
      await ask({ do: 'frame', rgba, width, height, delayMs: 1000 / framesPerS }, [rgba.buffer]);
      what.progress(k + 1);
    }
    const file = await ask({ do: 'finish' });
    if (file.done !== 'file') throw new Error('the GIF could not be finished');
    return new Blob([file.bytes], { type: 'image/gif' });
  } finally {
    worker.terminate();
  }
}

/** Lets the page draw and answer in between. */
function pageFrame(): Promise<void> {
  return new Promise((done) => setTimeout(done, 0));
}
