import { defineConfig } from 'vite';
import { alone } from './scripts/alone.ts';
import { offline } from './scripts/offline.ts';

/**
 * The service worker stands alone. So does main.ts: it waits, and whatever else stood in its file would wait with it, while main.ts
 * waits for pages that need that.
 */
const STANDS_ALONE = /[\\/](index\.html|app[\\/](main|offline[\\/]offline)\.ts)$/;

export default defineConfig({
  base: './',
  plugins: [alone(), offline()],
  build: {
    target: 'es2023',
    sourcemap: false,
    chunkSizeWarningLimit: 1600,
    rolldownOptions: {
      output: {
        // Each file is a request: what the first picture needs comes in a few. The rest is divided by the pages that ask for it.
        codeSplitting: {
          groups: [
            // With what pixi fetches for itself as soon as it starts.
            {
              name: 'drawing',
              test: /node_modules[\\/]pixi\.js[\\/]lib[\\/](environment-browser|rendering|unsafe-eval|app)[\\/]|[\\/]pixi\.js[\\/]lib[\\/]index/,
              priority: 3,
            },
            { name: 'first', tags: ['$initial'], test: (id) => !STANDS_ALONE.test(id), priority: 1 },
          ],
        },
      },
    },
  },
});
