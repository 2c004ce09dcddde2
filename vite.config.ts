import { defineConfig } from 'vite';
import { alone } from './scripts/alone.ts';
import { offline } from './scripts/offline.ts';

export default defineConfig({
  base: './',
  plugins: [alone(), offline()],
  build: { target: 'es2023', sourcemap: false, chunkSizeWarningLimit: 1600 },
});
