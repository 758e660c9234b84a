/** How the browser side is built: one folder of static files that the station serves. Nothing is fetched from elsewhere. */
import { resolve } from 'node:path';
import { preact } from '@preact/preset-vite';
import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [preact()],
  build: {
    outDir: resolve(import.meta.dirname, '../.build/web'),
    emptyOutDir: true,
    // Small files as data: addresses would need a wider content security policy.
    assetsInlineLimit: 0,
    reportCompressedSize: true,
  },
});
