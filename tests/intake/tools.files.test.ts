import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { PageReader } from '../../core/intake/pdfium/page-reader.ts';
import { tools } from '../../core/intake/recipe.ts';
import { bench } from './keeping.ts';
import { pdfOf, streamObject, words } from './make-pdf.ts';

const at = bench();
afterAll(() => at.clear());

function installed(name: string): unknown {
  const about: unknown = JSON.parse(
    readFileSync(new URL(`../../node_modules/${name}/package.json`, import.meta.url), 'utf8'),
  );
  return typeof about === 'object' && about !== null && 'version' in about ? about.version : undefined;
}

describe('the tools that a rendition names', () => {
  it.each([
    ['@neslinesli93/qpdf-wasm', tools.qpdfWasm],
    ['@embedpdf/pdfium', tools.pdfium],
    ['sharp', tools.sharp],
    ['libheif-js', tools.libheif],
    ['utif2', tools.utif2],
    ['pdf-lib', tools.pdfLib],
  ])('are those installed: %s', (name, version) => {
    expect(installed(name)).toBe(version);
  });

  it('include the qpdf that is inside its WebAssembly build', () => {
    const wasm = readFileSync(new URL('../../node_modules/@neslinesli93/qpdf-wasm/dist/qpdf.wasm', import.meta.url));
    expect(wasm.includes(`${tools.qpdf}\0`)).toBe(true);
  });
});

describe('reading page after page', () => {
  it('sees the same where the file is opened afresh in between', async () => {
    const count = 5;
    const pages = Array.from({ length: count }, (_, index) => index);
    const kept = await at.keep(
      pdfOf({
        1: '<< /Type /Catalog /Pages 2 0 R >>',
        2: `<< /Type /Pages /Count ${count} /Kids [ ${pages.map((index) => `${10 + index} 0 R`).join(' ')} ] /MediaBox [ 0 0 612 792 ] /Resources << /Font << /F1 5 0 R >> >> >>`,
        5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>',
        ...Object.fromEntries(
          pages.map((index) => [10 + index, `<< /Type /Page /Parent 2 0 R /Contents ${20 + index} 0 R >>`]),
        ),
        ...Object.fromEntries(pages.map((index) => [20 + index, streamObject(words(`Sheet ${index + 1}`))])),
      }),
    );
    const reader = await PageReader.open(kept.output);
    const texts: (string | undefined)[] = [];
    for (const index of pages) texts.push((await reader?.read(index, 40 * 1024 * 1024))?.text);
    reader?.close();
    expect(texts).toEqual(['Sheet 1', 'Sheet 2', 'Sheet 3', 'Sheet 4', 'Sheet 5']);
  });
});
