import { cpSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = import.meta.dirname;
const output = join(here, '..', 'dist', 'renderer');

/** What pdf.js reads at run time beside its program: character maps, the fourteen standard faces, decoders. */
function pdfParts() {
  const pdfjs = dirname(fileURLToPath(import.meta.resolve('pdfjs-dist/package.json')));
  return {
    name: 'pdf-parts',
    closeBundle() {
      for (const part of ['cmaps', 'standard_fonts', 'wasm', 'iccs']) {
        cpSync(join(pdfjs, part), join(output, 'pdf', part), { recursive: true });
      }
    },
  };
}

export default defineConfig({
  root: here,
  base: '/',
  publicDir: join(here, 'public'),
  plugins: [pdfParts()],
  build: {
    outDir: output,
    emptyOutDir: true,
    target: 'es2024',
    // Under the strict policy nothing may be inlined as data: in scripts or styles.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 2000,
  },
});
