import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { keepFile } from '../../core/intake/keep-file.ts';
import { fileSource } from '../../core/intake/pdfium/byte-source.ts';
import { RegularFile } from '../../core/intake/regular/regular-file.ts';
import { bench, sightOf } from './keeping.ts';
import { onePage, pdfOf, streamObject, throughQpdf, words } from './make-pdf.ts';

const at = bench();
afterAll(() => at.clear());

/** Every object reads under the strict reader, or this throws. */
function readsAsRegular(path: string): number {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    for (let number = 1; number < file.size; number += 1) file.entry(number);
    return file.size;
  } finally {
    source.close();
  }
}

describe('keeping a sound PDF', () => {
  it('writes a file in which every object reads under the strict rules that linking relies on', async () => {
    const packed = await throughQpdf(onePage(), ['--object-streams=generate']);
    expect(packed.includes('/ObjStm')).toBe(true);
    const kept = await at.keep(packed);
    expect(readsAsRegular(kept.output)).toBeGreaterThan(4);
    const text = readFileSync(kept.output, 'latin1');
    expect(text).toMatch(/^%PDF-1\.\d\n/);
    expect(text).not.toMatch(/ObjStm|\/Linearized|\/Encrypt|\/Prev/);
    expect(text.match(/startxref/g)).toHaveLength(1);
  });

  it('gives the same bytes each time', async () => {
    const bytes = onePage();
    const [first, second] = [await at.keep(bytes), await at.keep(bytes)];
    expect(second.sha256).toBe(first.sha256);
  });

  it('tells the text in NFC and the recipe that was used', async () => {
    const kept = await at.keep(onePage({ content: words('Caf\\351 on Ridge Road') }));
    expect(kept.rendition.pages[0]?.text).toBe('Caf\u00e9 on Ridge Road');
    expect(kept.rendition).toMatchObject({ rung: 'normalised', sealed: false, notes: [] });
    expect(kept.rendition.recipe).toMatch(/^pdf\/\d+:/);
  });

  it('undoes linearisation', async () => {
    const linear = await throughQpdf(onePage(), ['--linearize']);
    expect(linear.includes('/Linearized')).toBe(true);
    const kept = await at.keep(linear);
    expect(readsAsRegular(kept.output)).toBeGreaterThan(4);
  });

  it('keeps all that a hybrid file shows (ISO 32000-1, 7.5.8.4: what only newer readers see is no part of the look)', async () => {
    const objects = {
      1: '<< /Type /Catalog /Pages 2 0 R /StructTreeRoot 8 0 R >>',
      2: '<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>',
      3: '<< /Type /Page /Parent 2 0 R /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> /MediaBox [ 0 0 612 792 ] >>',
      4: streamObject(words('Hybrid')),
      5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
      6: streamObject('8 0 << /Type /StructTreeRoot >>', '/Type /ObjStm /N 1 /First 4'),
      7: streamObject(Buffer.from([2, 0, 6, 0]), '/Type /XRef /Size 9 /Index [ 8 1 ] /W [ 1 2 1 ] /Root 1 0 R'),
    };
    const second = pdfOf(objects).indexOf('7 0 obj');
    const kept = await at.keep(pdfOf(objects, `/XRefStm ${second}`));
    expect(kept.rendition.pages[0]?.text).toBe('Hybrid');
    expect(readsAsRegular(kept.output)).toBeGreaterThan(4);
  });

  it('keeps only the last state of a file that was changed by appending', async () => {
    const base = onePage({ content: words('First state') });
    const stream = streamObject(words('Second state'));
    const start = base.length;
    const object = Buffer.concat([Buffer.from('4 0 obj\n'), stream, Buffer.from('\nendobj\n')]);
    const previous = Number(/startxref\n(\d+)/.exec(base.toString('latin1'))?.[1]);
    const tail = `xref\n4 1\n${String(start).padStart(10, '0')} 00000 n \ntrailer\n<< /Root 1 0 R /Size 6 /Prev ${previous} >>\nstartxref\n${start + object.length}\n%%EOF\n`;
    const kept = await at.keep(Buffer.concat([base, object, Buffer.from(tail)]));
    expect(kept.rendition.pages[0]?.text).toBe('Second state');
    expect(readFileSync(kept.output, 'latin1')).not.toContain('First state');
  });

  it('carries a stream that holds the word "endstream"', async () => {
    const content = `${words('Before')}% endstream endobj\n${words('After', 100, 300)}`;
    const kept = await at.keep(onePage({ content }));
    expect(kept.rendition.pages[0]?.text).toContain('Before');
    expect(kept.rendition.pages[0]?.text).toContain('After');
    expect(readsAsRegular(kept.output)).toBeGreaterThan(4);
  });

  it('finds the header behind a mail program\u2019s junk', async () => {
    const kept = await at.keep(Buffer.concat([Buffer.from('X-Mail: passed\r\n\r\n'), onePage()]));
    expect(kept.rendition.pages[0]?.text).toBe('Septic permit 4711');
  });

  it('lets a second reader save a file whose table of objects is broken', async () => {
    const broken = Buffer.from(
      onePage()
        .toString('latin1')
        .replace(/0000000\d\d\d 00000 n/g, '0000000001 00000 n'),
      'latin1',
    );
    const kept = await at.keep(broken);
    expect(kept.rendition.rung).toBe('re-saved, then normalised');
    expect(kept.rendition.pages[0]?.text).toBe('Septic permit 4711');
    expect(readsAsRegular(kept.output)).toBeGreaterThan(4);
  });

  it('opens a file that only its owner may change, and tells so', async () => {
    for (const bits of ['128', '256']) {
      const locked = await throughQpdf(onePage(), ['--allow-weak-crypto', '--encrypt', '', 'secret', bits, '--']);
      const kept = await at.keep(locked);
      expect(kept.rendition.rung).toBe('normalised');
      expect(kept.rendition.notes.join()).toContain('locked against changes');
      expect(kept.rendition.pages[0]?.text).toBe('Septic permit 4711');
      expect(readFileSync(kept.output, 'latin1')).not.toContain('/Encrypt');
    }
  });

  it('gives every object generation 0 and leaves out what nothing leads to', async () => {
    const text = onePage({ more: { 6: '(an orphan that nothing leads to)' } })
      .toString('latin1')
      .replace('4 0 obj', '4 2 obj')
      .replace('/Contents 4 0 R', '/Contents 4 2 R')
      .replace(/(xref\n0 7\n(?:.{20}|.{19}\n){4}\d{10}) 00000 n/, '$1 00002 n');
    const kept = await at.keep(Buffer.from(text, 'latin1'));
    expect(kept.rendition).toMatchObject({ rung: 'normalised', pages: [{ text: 'Septic permit 4711' }] });
    const after = readFileSync(kept.output, 'latin1');
    expect(after).not.toMatch(/\d [1-9] (obj|R)/);
    expect(after).not.toContain('orphan');
  });

  it('leaves the original as it was', async () => {
    const bytes = onePage();
    const input = at.path('original.pdf');
    writeFileSync(input, bytes);
    await keepFile({ job: 'keep', input, name: 'original.pdf', output: at.path('original.kept') });
    expect(Buffer.compare(readFileSync(input), bytes)).toBe(0);
  });

  it('keeps a layer hidden that the author hid', async () => {
    const layered = onePage({
      content: `${words('Shown')}/OC /L1 BDC\n${words('Hidden by its author', 100, 300)}0 0 0 rg 100 100 200 50 re f\nEMC\n`,
      resources: '/Properties << /L1 6 0 R >>',
      catalog: '/OCProperties << /OCGs [ 6 0 R ] /D << /OFF [ 6 0 R ] /Order [ 6 0 R ] >> >>',
      more: { 6: '<< /Type /OCG /Name (Draft) >>' },
    });
    const kept = await at.keep(layered);
    const { raster } = await sightOf(kept.output);
    expect(raster.pixels[(792 - 125) * raster.width + 200]).toBe(255);
  });

  it('keeps the look of a form whose values were never drawn by its author', async () => {
    const form = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ 6 0 R ]',
      catalog:
        '/AcroForm << /Fields [ 6 0 R ] /NeedAppearances true /DR << /Font << /Helv 5 0 R >> >> /DA (/Helv 12 Tf 0 g) >>',
      more: {
        6: '<< /Type /Annot /Subtype /Widget /FT /Tx /T (parcel) /V (0471-22-9) /Rect [ 100 500 300 520 ] /P 3 0 R /F 4 /DA (/Helv 12 Tf 0 g) >>',
      },
    });
    const kept = await at.keep(form);
    const { raster } = await sightOf(kept.output);
    const field = Array.from({ length: 20 }, (_, row) => {
      const from = (792 - 520 + row) * raster.width;
      return [...raster.pixels.subarray(from + 100, from + 300)].filter((value) => value < 128).length;
    });
    expect(field.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(50);
  });
});

describe('refusing what is no paper', () => {
  const refusals: readonly (readonly [why: string, bytes: Uint8Array, say: RegExp])[] = [
    ['a web page under a PDF name', Buffer.from('<!DOCTYPE html><html><body>Sign in</body></html>'), /is a web page/],
    ['no bytes', Buffer.alloc(0), /holds no bytes/],
    ['a PDF header and nothing else', Buffer.from('%PDF-1.7\nrubbish'), /breaks off/],
    [
      'a file without pages',
      pdfOf({ 1: '<< /Type /Catalog /Pages 2 0 R >>', 2: '<< /Type /Pages /Kids [] /Count 0 >>' }),
      /no pages|damaged/,
    ],
    [
      'a wrapper round other files',
      onePage({ catalog: '/Collection << /Type /Collection /View /D >>' }),
      /wrapper round other files/,
    ],
    [
      'a form that only its own program can draw',
      onePage({
        content: words('Please wait...'),
        catalog: '/NeedsRendering true /AcroForm << /Fields [] /XFA 6 0 R >>',
        more: { 6: streamObject('<xdp/>') },
      }),
      /please wait/,
    ],
    [
      'a form with a "please wait" sheet that does not admit it',
      onePage({
        content: words('Please wait...'),
        catalog: '/AcroForm << /Fields [] /XFA 6 0 R >>',
        more: { 6: streamObject('<xdp/>') },
      }),
      /please wait/,
    ],
  ];
  it.each(refusals)('refuses %s with a sentence and leaves nothing behind', async (_why, bytes, say) => {
    const before = readdirSync(at.folder).filter((name) => name.includes('.kept'));
    const failure = await at.keep(bytes, 'permit.pdf').catch((problem: unknown) => problem);
    expect(failure).toMatchObject({ code: 'file refused', about: 'permit.pdf', message: expect.stringMatching(say) });
    expect(failure).toHaveProperty('next', expect.stringMatching(/\.$/));
    expect(readdirSync(at.folder).filter((name) => name.includes('.kept'))).toEqual(before);
  });

  it('refuses a file that opens only with a password, and says how to get on', async () => {
    const locked = await throughQpdf(onePage(), ['--encrypt', 'user', 'owner', '256', '--']);
    await expect(at.keep(locked, 'loan.pdf')).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringContaining('password'),
      next: expect.stringContaining('without'),
    });
  });
});
