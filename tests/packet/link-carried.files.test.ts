import { readFileSync } from 'node:fs';
import { PDFDocument, PDFName, PDFTextField } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { openWithReader } from '../../core/packet/read-back/open-finished.ts';
import {
  asSource,
  differences,
  keptSource,
  linkProved,
  orderOf,
  type Picture,
  pageOf,
  picturesOf,
  type RawObject,
  rawPdf,
  workFolder,
} from './link-kit.ts';

const page = (more: string): string => `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 200 300] ${more} >>`;
const helvetica = '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>';
const times = '<< /Type /Font /Subtype /Type1 /BaseFont /Times-Roman /Encoding /WinAnsiEncoding >>';

function pair(a: readonly Picture[], i: number, b: readonly Picture[], j: number): number {
  const [mine, theirs] = [a[i], b[j]];
  if (mine === undefined || theirs === undefined) throw new Error('a page was not drawn');
  return differences(mine, theirs);
}

/** Three pages with every way of leading somewhere. */
function linkedPaper(): Buffer {
  const link = (y: number, more: string): string =>
    `<< /Type /Annot /Subtype /Link /Rect [10 ${y} 60 ${y + 10}] ${more} >>`;
  return rawPdf([
    '<< /Type /Catalog /Pages 2 0 R /Dests << /old [4 0 R /FitH 100] >> /Names << /Dests 6 0 R >> >>',
    '<< /Type /Pages /Kids [3 0 R 4 0 R 5 0 R] /Count 3 >>',
    page('/Annots 7 0 R'),
    page(''),
    page(''),
    '<< /Kids [8 0 R] >>',
    '[9 0 R 10 0 R 11 0 R 12 0 R 13 0 R 14 0 R 15 0 R]',
    '<< /Limits [(back) (new)] /Names [(back) 16 0 R (new) << /D [5 0 R /XYZ 0 300 0] >>] >>',
    link(10, '/Dest [4 0 R /Fit]'),
    link(30, '/Dest /old'),
    link(50, '/Dest (new)'),
    link(70, '/A << /S /GoTo /D (back) >>'),
    link(90, '/A << /S /URI /URI (https://county.example/permits) >>'),
    link(110, '/Dest (nobody) /Border [0 0 0]'),
    link(130, '/A << /S /GoTo /D [5 0 R /Fit] /Next << /S /JavaScript /JS (app.alert\\(1\\)) >> >>'),
    '[3 0 R /Fit]',
  ]);
}

describe('links inside a paper', () => {
  test('live on, by name or not, and lead to where their pages now stand', async () => {
    using folder = workFolder();
    const source = asSource(folder.path('a.pdf'), linkedPaper());
    const order = orderOf(
      [source],
      [2, 0, 1].map((at) => pageOf(source, at)),
    );
    const { notes } = await linkProved(order, folder.path('packet.pdf'));
    expect(notes).toEqual(['Plans: a link to a page that is not in this packet was dropped.']);
    using seen = await openWithReader(folder.path('packet.pdf'));
    const links = seen?.linksOf(1) ?? [];
    expect(links.map(({ y, page: to }) => [y, to])).toEqual([
      [10, 2],
      [30, 2],
      [50, 0],
      [70, 1],
      [90, -1],
      [130, 0],
    ]);
    expect(readFileSync(folder.path('packet.pdf'), 'latin1')).toContain('https://county.example/permits');
  });

  test('to pages left out are dropped and counted, and drag nothing along', async () => {
    using folder = workFolder();
    const source = asSource(folder.path('a.pdf'), linkedPaper());
    const { notes } = await linkProved(orderOf([source], [pageOf(source, 0)]), folder.path('packet.pdf'));
    expect(notes).toEqual(['Plans: 5 links to pages that are not in this packet were dropped.']);
    expect(readFileSync(folder.path('packet.pdf'), 'latin1').match(/\/Type \/Page\n/g)).toHaveLength(1);
  });

  test('stay within their own set where a paper goes in twice', async () => {
    using folder = workFolder();
    const source = asSource(folder.path('a.pdf'), linkedPaper());
    const order = orderOf(
      [source],
      [0, 1, 2, 0, 1, 2].map((at) => pageOf(source, at)),
    );
    await linkProved(order, folder.path('packet.pdf'));
    using seen = await openWithReader(folder.path('packet.pdf'));
    expect(seen?.linksOf(0).map(({ page: to }) => to)).toEqual([1, 1, 2, 0, -1, 2]);
    expect(seen?.linksOf(3).map(({ page: to }) => to)).toEqual([4, 4, 5, 3, -1, 5]);
  });
});

describe('what is left of annotations that may not act', () => {
  test('is the look: a frame round a link that leads nowhere, the picture of an attached file', async () => {
    using folder = workFolder();
    const raw = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      page('/Annots [4 0 R 5 0 R 6 0 R]'),
      '<< /Type /Annot /Subtype /Link /Rect [10 10 90 40] /Border [0 0 3] /C [1 0 0] /A << /S /Launch /F (a.exe) >> >>',
      '<< /Type /Annot /Subtype /Link /Rect [10 60 90 90] /BS << /W 0 >> /A << /S /Launch /F (b.exe) >> >>',
      '<< /Type /Annot /Subtype /FileAttachment /Rect [10 100 60 120] /AP << /N 7 0 R >> /FS << /F (a) /EF << /F 8 0 R >> >> >>',
      { dict: '/Type /XObject /Subtype /Form /BBox [0 0 50 20]', bytes: '0 0 1 rg 0 0 50 20 re f' },
      { dict: '', bytes: 'EMBEDDED' },
    ]);
    const source = asSource(folder.path('a.pdf'), raw);
    await linkProved(orderOf([source], [pageOf(source, 0)]), folder.path('packet.pdf'));
    const text = readFileSync(folder.path('packet.pdf'), 'latin1');
    expect(text).not.toMatch(/Launch|EMBEDDED|\/EF/);
    expect(text.match(/\/Subtype \/Link/g)).toHaveLength(1);
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')), 1);
    expect(pair(await picturesOf(raw, 1), 0, finished, 0)).toBe(0);
    expect(finished[0]?.data[(190 * 200 + 30) * 4]).toBe(0);
  });
});

describe('active content', () => {
  test('is dropped and told, and the page keeps its look', async () => {
    using folder = workFolder();
    const look = { dict: '/Type /XObject /Subtype /Form /BBox [0 0 50 20]', bytes: '1 0 0 rg 0 0 50 20 re f' };
    const objects: RawObject[] = [
      '<< /Type /Catalog /Pages 2 0 R /OpenAction << /S /JavaScript /JS (x) >> /AA << /WC << /S /JavaScript /JS (x) >> >> ' +
        '/AcroForm << /Fields [4 0 R] /XFA (x) >> /Names << /JavaScript << /Names [(a) << /S /JavaScript /JS (x) >>] >> >> >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      page(
        '/Annots [4 0 R 5 0 R 6 0 R 7 0 R 8 0 R] /AA << /O << /S /Launch /F (a.exe) >> >> /Metadata 10 0 R /PieceInfo << >> /Thumb 10 0 R',
      ),
      '<< /Type /Annot /Subtype /Widget /FT /Btn /Ff 65536 /T (go) /Rect [10 10 60 30] /AP << /N 9 0 R >> ' +
        '/A << /S /SubmitForm /F (http://x.example) >> /AA << /D << /S /JavaScript /JS (x) >> >> >>',
      '<< /Type /Annot /Subtype /Link /Rect [10 50 60 70] /A << /S /Launch /F (a.exe) >> >>',
      '<< /Type /Annot /Subtype /FileAttachment /Rect [10 90 60 110] /FS << /Type /Filespec /F (a) /EF << /F 10 0 R >> >> >>',
      '<< /Type /Annot /Subtype /Screen /Rect [100 90 150 110] /AP << /N 9 0 R >> /A << /S /Rendition >> >>',
      '<< /Type /Annot /Subtype /Link /Rect [10 130 60 150] /A << /S /URI /URI (javascript:alert) >> >>',
      look,
      { dict: '', bytes: 'EMBEDDED' },
    ];
    const raw = rawPdf(objects);
    const source = asSource(folder.path('a.pdf'), raw);
    const { notes } = await linkProved(orderOf([source], [pageOf(source, 0)]), folder.path('packet.pdf'));
    const text = readFileSync(folder.path('packet.pdf'), 'latin1');
    for (const word of [
      'JavaScript',
      '/JS',
      'Launch',
      'SubmitForm',
      'OpenAction',
      '/AA',
      'EmbeddedFile',
      '/EF',
      'EMBEDDED',
      'XFA',
      'javascript:',
      'Rendition',
      'PieceInfo',
    ]) {
      expect(text).not.toContain(word);
    }
    expect(notes).toEqual([
      'Plans: an attached file was dropped.',
      'Plans: a film, sound or model was kept as a still picture.',
      'Plans: 4 active instructions (open a program, send a form, play something) were dropped.',
    ]);
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')), 1);
    const [mine] = finished;
    expect(mine?.data[(280 * 200 + 30) * 4 + 1]).toBe(0);
    expect(mine?.data[(200 * 200 + 120) * 4 + 1]).toBe(0);
  });
});

describe('layers', () => {
  function layered(state: string, order: string): Buffer {
    return rawPdf([
      `<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [6 0 R 7 0 R 8 0 R] /D << ${state} /Order ${order} >> >> >>`,
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      page('/Contents 4 0 R /Resources << /Properties << /A 6 0 R /B 7 0 R /M 5 0 R >> >>'),
      {
        dict: '',
        bytes:
          '/OC /A BDC 1 0 0 rg 10 10 50 50 re f EMC /OC /B BDC 0 1 0 rg 70 10 50 50 re f EMC ' +
          '/OC /M BDC 0 0 1 rg 130 10 50 50 re f EMC',
      },
      '<< /Type /OCMD /OCGs [6 0 R 7 0 R] /P /AllOn >>',
      '<< /Type /OCG /Name (Existing trees) >>',
      '<< /Type /OCG /Name (Setbacks) >>',
      '<< /Type /OCG /Name (nowhere used) >>',
    ]);
  }

  test('hidden in their paper stay hidden, shown ones stay shown, whatever the other papers say', async () => {
    using folder = workFolder();
    const raws = [
      layered('/OFF [7 0 R]', '[6 0 R 7 0 R]'),
      layered('/BaseState /OFF /ON [7 0 R]', '[(Site) [6 0 R 7 0 R 8 0 R]]'),
      layered('', '[]'),
      layered('/OFF [6 0 R] /Locked [6 0 R] /RBGroups [[6 0 R 7 0 R]]', '[]'),
    ];
    const sources = raws.map((raw, i) => asSource(folder.path(`${i}.pdf`), raw, `Paper ${i}`));
    const order = orderOf(
      sources,
      sources.map((source) => pageOf(source, 0)),
    );
    await linkProved(order, folder.path('packet.pdf'));
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')), 1);
    for (const [i, raw] of raws.entries()) expect(pair(finished, i, await picturesOf(raw, 1), 0)).toBe(0);
    const text = readFileSync(folder.path('packet.pdf'), 'latin1');
    expect(text.match(/\/Type \/OCG\n/g)).toHaveLength(8);
    expect(text).not.toContain('nowhere used');
  });
});

describe('forms', () => {
  /** A form with a nested field, a second widget on another page, a check box and a signature field. */
  function form(font: string, value: string): Buffer {
    const look = (bytes: string): RawObject => ({
      dict: '/Type /XObject /Subtype /Form /BBox [0 0 100 20] /Resources << /Font << /Helv 6 0 R >> >>',
      bytes,
    });
    return rawPdf([
      '<< /Type /Catalog /Pages 2 0 R /AcroForm << /Fields [7 0 R 10 0 R 13 0 R] /DA (/Helv 0 Tf 0 g) /DR << /Font << /Helv 6 0 R >> >> >> >>',
      '<< /Type /Pages /Kids [3 0 R 4 0 R 5 0 R] /Count 3 >>',
      page('/Annots [9 0 R 10 0 R 13 0 R]'),
      page('/Annots [11 0 R]'),
      page(''),
      font,
      '<< /T (owner) /Kids [8 0 R] >>',
      `<< /T (name) /FT /Tx /V (${value}) /DA (/Helv 12 Tf 0 g) /Parent 7 0 R /Kids [9 0 R 11 0 R] >>`,
      '<< /Type /Annot /Subtype /Widget /Parent 8 0 R /Rect [10 10 110 30] /F 4 /AP << /N 12 0 R >> >>',
      '<< /Type /Annot /Subtype /Widget /FT /Tx /T (parcel) /V (12-3) /DA (/Helv 9 Tf 0 g) /Rect [10 50 110 70] /F 4 /AP << /N 12 0 R >> >>',
      '<< /Type /Annot /Subtype /Widget /Parent 8 0 R /Rect [10 90 110 110] /F 4 /AP << /N 12 0 R >> >>',
      look(`/Tx BMC BT /Helv 12 Tf 2 5 Td (${value}) Tj ET EMC`),
      '<< /Type /Annot /Subtype /Widget /FT /Sig /T (sig) /Rect [10 150 110 170] /F 4 /AP << /N 14 0 R >> >>',
      look('0 0 1 RG 1 1 98 18 re S'),
    ]);
  }

  test('keep their look and their fields, under names of their own', async () => {
    using folder = workFolder();
    const raws = [form(helvetica, 'Ann'), form(times, 'Bo')];
    const sources = [];
    for (const [i, raw] of raws.entries()) sources.push(await keptSource(folder.path(`${i}.pdf`), raw, `Form ${i}`));
    const order = orderOf(
      sources,
      sources.flatMap((source) => [pageOf(source, 0), pageOf(source, 1)]),
    );
    const { notes } = await linkProved(order, folder.path('packet.pdf'));
    expect(notes).toEqual([
      'Form 0: a signature field was kept as a picture only.',
      'Form 1: a signature field was kept as a picture only.',
    ]);
    const bytes = readFileSync(folder.path('packet.pdf'));
    const finished = await picturesOf(bytes, 1);
    for (const [i, raw] of raws.entries()) {
      const theirs = await picturesOf(raw, 1);
      expect(pair(finished, i * 2, theirs, 0)).toBe(0);
      expect(pair(finished, i * 2 + 1, theirs, 1)).toBe(0);
    }
    const document = await PDFDocument.load(bytes);
    const fields = document.getForm().getFields();
    expect(fields.map((field) => field.getName()).toSorted(byText)).toEqual([
      't1.owner.name',
      't1.parcel',
      't2.owner.name',
      't2.parcel',
    ]);
    expect(fields.map((field) => (field instanceof PDFTextField ? field.getText() : '')).toSorted(byText)).toEqual([
      '12-3',
      '12-3',
      'Ann',
      'Bo',
    ]);
    expect(document.getForm().getField('t1.owner.name').acroField.getWidgets()).toHaveLength(2);
    expect(document.catalog.lookup(PDFName.of('AcroForm'))?.toString()).not.toContain('NeedAppearances');
    const text = bytes.toString('latin1');
    expect(text).not.toContain('/SigFlags');
    // The two /Helv are different fonts: the second got another name, and the fields of its form say so.
    expect(text).toContain('/Helv-2');
    expect(text).toContain(`<${Buffer.from('/Helv-2 12 Tf 0 g').toString('hex')}>`);
  });

  test('of a page that goes in twice become two sets of fields', async () => {
    using folder = workFolder();
    const source = asSource(folder.path('a.pdf'), form(helvetica, 'Ann'));
    const order = orderOf([source], [pageOf(source, 0), pageOf(source, 0), pageOf(source, 1)]);
    await linkProved(order, folder.path('packet.pdf'));
    const document = await PDFDocument.load(readFileSync(folder.path('packet.pdf')));
    const names = document
      .getForm()
      .getFields()
      .map((field) => field.getName());
    expect(names.toSorted(byText)).toEqual(['t1-2.owner.name', 't1-2.parcel', 't1.owner.name', 't1.parcel']);
    expect(document.getForm().getField('t1.owner.name').acroField.getWidgets()).toHaveLength(2);
  });

  test('that leave the look to the reader get it drawn, and no other form is drawn anew', async () => {
    using folder = workFolder();
    const widget = (y: number, more: string): string =>
      `<< /Type /Annot /Subtype /Widget /Rect [10 ${y} 150 ${y + 20}] /F 4 /MK << /BC [0 0 0.5] /BG [0.9 0.9 1] >> ${more} >>`;
    const raw = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R /AcroForm << /Fields [5 0 R 6 0 R 7 0 R 8 0 R 9 0 R] /NeedAppearances true /DA (/Helv 0 Tf 0 g) /DR << /Font << /Helv 4 0 R >> >> >> >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      page('/Annots [5 0 R 6 0 R 7 0 R 8 0 R 9 0 R]'),
      helvetica,
      widget(10, '/FT /Tx /T (a) /V (410 Ridge Rd)'),
      widget(40, '/FT /Tx /T (b) /V (centred) /Q 1 /DA (/Helv 10 Tf 1 0 0 rg)'),
      widget(70, '/FT /Tx /T (c) /V (1234) /Ff 16777216 /MaxLen 8'),
      widget(100, '/FT /Ch /Ff 131072 /T (d) /V (s) /Opt [[(s) (Septic)] [(w) (Sewer)]]'),
      '<< /Type /Annot /Subtype /Widget /Rect [10 130 150 200] /F 4 /FT /Tx /Ff 4096 /T (e) /DA (/Helv 8 Tf 0 g) /V (A long remark that has to be broken into several lines\\nand one of its own) >>',
    ]);
    const source = asSource(folder.path('a.pdf'), raw, 'Application');
    const other = asSource(folder.path('b.pdf'), form(helvetica, 'Ann'), 'Other form');
    const order = orderOf([source, other], [pageOf(source, 0), pageOf(other, 0)]);
    const { notes } = await linkProved(order, folder.path('packet.pdf'));
    expect(notes[0]).toBe('Application: 5 filled-in fields were drawn anew, because the form left that to the reader.');
    const bytes = readFileSync(folder.path('packet.pdf'));
    expect(bytes.toString('latin1')).not.toContain('NeedAppearances');
    const finished = await picturesOf(bytes, 2);
    // The reader draws the original itself; ours must carry about as much ink in each field.
    const [theirs] = await picturesOf(raw, 2);
    const [mine] = finished;
    if (mine === undefined || theirs === undefined) throw new Error('a page was not drawn');
    for (const [y, high] of [
      [10, 20],
      [40, 20],
      [70, 20],
      [100, 20],
      [130, 70],
    ] as const) {
      const [a, b] = [darkness(mine, y, high), darkness(theirs, y, high)];
      expect(a).toBeGreaterThan(100);
      expect(a / b).toBeGreaterThan(0.6);
      expect(a / b).toBeLessThan(1.5);
    }
    expect(pair(finished, 1, await picturesOf(readFileSync(other.path), 2), 0)).toBe(0);
    const words = await PDFDocument.load(bytes);
    expect(words.getForm().getTextField('t1.a').getText()).toBe('410 Ridge Rd');
  });
});

const byText = (a: string | undefined, b: string | undefined): number => (a ?? '').localeCompare(b ?? '', 'en');

/** Dark pixels of a band given in points from the foot of a 300-point page drawn at twice its size. */
function darkness(picture: Picture, y: number, high: number): number {
  let count = 0;
  for (let row = (300 - y - high) * 2 + 6; row < (300 - y) * 2 - 6; row += 1) {
    for (let x = 26; x < 240; x += 1) {
      const at = (row * picture.width + x) * 4;
      if ((picture.data[at + 1] ?? 255) < 128) count += 1;
    }
  }
  return count;
}
