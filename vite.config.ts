// Builds the page from src/web into dist/web, where the server serves it.
// It must not inline scripts or assets: the content-security policy allows none.

import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const inPage = (file: string): string => fileURLToPath(new URL(`./src/web/${file}`, import.meta.url));

export default defineConfig({
  root: 'src/web',
  base: './',
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'es2022',
    // The service worker reads from it what to keep.
    manifest: 'built-files.json',
    rollupOptions: {
      input: { index: inPage('index.html'), 'service-worker': inPage('service-worker.ts') },
      output: {
        // A worker's reach is the folder of its script, and its address must stay the same from build to build.
        entryFileNames: ({ name }) => (name === 'service-worker' ? '[name].js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
