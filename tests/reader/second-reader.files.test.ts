import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { secondOpinion } from '../../core/intake/ladder/second-opinion.ts';
import { secondSight } from '../../core/reader/second-reader.ts';
import { onePage, pdfOf, streamObject, throughQpdf, words } from '../intake/make-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-second-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
function written(bytes: Uint8Array): string {
  count += 1;
  const path = join(folder, `${count}.pdf`);
  writeFileSync(path, bytes);
  return path;
}

function pages(texts: readonly string[]): Buffer {
  const refs = texts.map((_, at) => `${10 + at * 2} 0 R`).join(' ');
  return pdfOf({
    1: '<< /Type /Catalog /Pages 2 0 R >>',
    2: `<< /Type /Pages /Count ${texts.length} /Kids [ ${refs} ] /MediaBox [ 0 0 612 792 ] /Resources << /Font << /F1 5 0 R >> >> >>`,
    5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>',
    ...Object.fromEntries(
      texts.flatMap((text, at) => [
        [10 + at * 2, `<< /Type /Page /Parent 2 0 R /Contents ${11 + at * 2} 0 R >>`],
        [11 + at * 2, streamObject(words(text))],
      ]),
    ),
  });
}

describe('the second reader', () => {
  it('counts pages, letters and annotations', async () => {
    const noted = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ << /Type /Annot /Subtype /Square /Rect [ 9 9 99 99 ] /C [ 1 0 0 ] >> ]',
    });
    expect(await secondSight(written(noted))).toEqual({ pageCount: 1, pages: [{ letters: 16, annotations: 1 }] });
    expect((await secondSight(written(pages(['One', 'Two', 'Three']))))?.pages.map(({ letters }) => letters)).toEqual([
      3, 3, 5,
    ]);
  });

  it('has no opinion on what it can not open', async () => {
    expect(await secondSight(written(Buffer.from('%PDF-1.7 rubbish')))).toBeUndefined();
    const locked = await throughQpdf(onePage(), ['--encrypt', 'open', 'owner', '256', '--']);
    expect(await secondSight(written(locked))).toBeUndefined();
    expect((await secondSight(written(locked), 'open'))?.pageCount).toBe(1);
  });
});

describe('a second opinion on kept pages', () => {
  const on = (original: Uint8Array, kept: Uint8Array) =>
    secondOpinion({
      job: { job: 'keep', input: written(original), name: 'a.pdf', output: written(kept) },
      source: '',
      scrap: () => '',
      onPage: async () => {},
    });

  it('has no doubt where both hold the same, more or less a ligature', async () => {
    expect(await on(pages(['Septic permit', 'Site plan']), pages(['Septic permit', 'Site plan']))).toBeUndefined();
    expect(await on(pages(['Septic permit office']), pages(['Septic permit offce']))).toBeUndefined();
  });

  it('names the page that lost words, and what is missing else', async () => {
    expect(await on(pages(['Septic permit', 'Site plan and more']), pages(['Septic permit', 'Site']))).toMatch(
      /more words on page 2/,
    );
    expect(await on(pages(['One', 'Two']), pages(['One']))).toMatch(/finds 2 pages in the original, 1 were kept/);
    const field = {
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ << /Type /Annot /Subtype /Square /Rect [ 9 9 99 99 ] >> ]',
    };
    expect(await on(onePage(field), onePage())).toMatch(/more notes or fields on page 1/);
  });
});
