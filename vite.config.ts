// Builds the page from src/web into dist/web, where the server serves it.
// It must not inline scripts or assets: the content-security policy allows none.

import { defineConfig } from 'vite';

export default defineConfig({
  root: 'src/web',
  base: './',
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'es2022',
  },
});
