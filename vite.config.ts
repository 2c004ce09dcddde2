import { defineConfig } from 'vite';
import { offline } from './scripts/offline.ts';

export default defineConfig({
  base: './',
  plugins: [offline()],
  build: { target: 'es2023', sourcemap: false, chunkSizeWarningLimit: 1600 },
});
