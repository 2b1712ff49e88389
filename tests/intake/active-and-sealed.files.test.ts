import { afterAll, describe, expect, it } from 'vitest';
import { bench } from './keeping.ts';
import { onePage, pdfOf, streamObject, throughQpdf } from './make-pdf.ts';

const at = bench();
afterAll(() => at.clear());

const signature =
  '<< /Type /Sig /Filter /Adobe.PPKLite /SubFilter /adbe.pkcs7.detached /ByteRange [ 0 10 20 10 ] /Contents <00ff> >>';
const withField = (field: string) => ({
  page: '/MediaBox [ 0 0 612 792 ] /Annots [ 6 0 R ]',
  catalog: '/AcroForm << /Fields [ 7 0 R ] /SigFlags 3 >>',
  more: {
    6: '<< /Type /Annot /Subtype /Widget /Parent 7 0 R /Rect [ 100 100 200 150 ] /F 4 /P 3 0 R >>',
    7: `<< /T (seal) /Kids [ 6 0 R ] ${field} >>`,
    8: signature,
  },
});

describe('a signed signature field (ISO 32000-1, 12.7.4.5)', () => {
  it('is found where it hides in packed objects', async () => {
    const packed = await throughQpdf(onePage(withField('/FT /Sig /V 8 0 R')), ['--object-streams=generate']);
    expect(packed.includes('/FT')).toBe(false);
    expect((await at.keep(packed)).rendition.sealed).toBe(true);
  });

  it('is not made of an empty signature line', async () => {
    expect((await at.keep(onePage(withField('/FT /Sig')))).rendition.sealed).toBe(false);
  });

  it('is not made of a text field that holds the word Sig', async () => {
    expect((await at.keep(onePage(withField('/FT /Tx /V (Sig)')))).rendition.sealed).toBe(false);
  });

  it('is found where kind and value stand in a field above', async () => {
    const nested = pdfOf({
      1: '<< /Type /Catalog /Pages 2 0 R /AcroForm << /Fields [ 6 0 R ] >> >>',
      2: '<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>',
      3: '<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 612 792 ] /Contents 4 0 R >>',
      4: streamObject('q Q'),
      6: '<< /T (a) /FT /Sig /Kids [ 7 0 R ] >>',
      7: '<< /T (b) /Parent 6 0 R /V 8 0 R >>',
      8: signature,
    });
    expect((await at.keep(nested)).rendition.sealed).toBe(true);
  });
});

describe('what a file can do besides being read', () => {
  const script = '<< /S /JavaScript /JS (app.alert\\(1\\)) >>';
  it.each([
    ['a script run on opening', { catalog: `/OpenAction ${script}` }, [/script/, /when it is opened/]],
    ['a named script', { catalog: `/Names << /JavaScript << /Names [ (a) ${script} ] >> >>` }, [/script/]],
    ['a script on turning to a page', { page: `/MediaBox [ 0 0 612 792 ] /AA << /O ${script} >>` }, [/script/]],
    [
      'a program start behind an innocent link',
      {
        page: '/MediaBox [ 0 0 612 792 ] /Annots [ << /Type /Annot /Subtype /Link /Rect [ 0 0 9 9 ] /A << /S /URI /URI (https://example.org) /Next [ << /S /Launch /F (a.exe) >> ] >> >> ]',
      },
      [/start another program/],
    ],
    [
      'a file inside',
      {
        catalog: '/Names << /EmbeddedFiles << /Names [ (a) 6 0 R ] >> >>',
        more: { 6: '<< /Type /Filespec /F (a.txt) /EF << /F 7 0 R >> >>', 7: streamObject('hello') },
      },
      [/files inside itself/],
    ],
    [
      'a form that sends itself off, in a field of the form alone',
      {
        catalog:
          '/AcroForm << /Fields [ << /T (send) /FT /Btn /Ff 65536 /A << /S /SubmitForm /F (http://example.org) >> >> ] >>',
      },
      [/send what is filled in/],
    ],
    [
      'a film',
      { page: '/MediaBox [ 0 0 612 792 ] /Annots [ << /Type /Annot /Subtype /RichMedia /Rect [ 0 0 9 9 ] >> ]' },
      [/sound, film/],
    ],
  ])('tells of %s', async (_what, page, sentences) => {
    const { notes } = (await at.keep(onePage(page))).rendition;
    expect(notes).toHaveLength(sentences.length);
    for (const [index, sentence] of sentences.entries()) expect(notes[index]).toMatch(sentence);
  });

  it('says nothing of a plain link, a first view and an action that leads back to itself', async () => {
    const plain = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ << /Type /Annot /Subtype /Link /Rect [ 0 0 9 9 ] /A 6 0 R >> ]',
      catalog: '/OpenAction [ 3 0 R /Fit ]',
      more: { 6: '<< /S /GoTo /D [ 3 0 R /Fit ] /Next 6 0 R >>' },
    });
    expect((await at.keep(plain)).rendition.notes).toEqual([]);
  });
});
