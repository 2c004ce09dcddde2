/** A drawing painted on a canvas, sharp at the canvas's own size. */

/** Throws where the browser can't read the drawing. The canvas takes the size given. */
export async function paint(canvas: HTMLCanvasElement, svgText: string, width: number, height: number): Promise<void> {
  const url = URL.createObjectURL(new Blob([svgText], { type: 'image/svg+xml' }));
  try {
    const image = new Image(width, height);
    image.src = url;
    await image.decode();
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (context === null) throw new Error('this browser has no plain canvas');
    context.drawImage(image, 0, 0, width, height);
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** A canvas as a PNG file. */
export function pngOf(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((done, failed) => {
    canvas.toBlob(
      (blob) => (blob === null ? failed(new Error('the picture could not be written')) : done(blob)),
      'image/png',
    );
  });
}
