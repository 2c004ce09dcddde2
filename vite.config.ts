import { defineConfig } from 'vite';

export default defineConfig({
  base: './',
  build: { target: 'es2023', sourcemap: false, chunkSizeWarningLimit: 1600 },
});
