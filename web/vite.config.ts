import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// Everything the page needs is one bundle of relative files: the program carries them and no line leaves the machine.
export default defineConfig({
  base: './',
  plugins: [svelte()],
  build: {
    target: 'es2021',
    modulePreload: false,
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 900,
  },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
