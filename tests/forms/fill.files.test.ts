import { readFileSync, writeFileSync } from 'node:fs';
import { PDFDict, PDFDocument, PDFName, PDFNumber } from 'pdf-lib';
import { afterAll, describe, expect, it } from 'vitest';
import { fillBlank } from '../../core/forms/file/fill-blank.ts';
import { readBack } from '../../core/forms/file/read-back.ts';
import { readBlank } from '../../core/forms/file/read-blank.ts';
import type { BlankField, FieldWrite } from '../../core/forms/form-model.ts';
import { bench, sightOf } from '../intake/keeping.ts';
import { type Objects, onePage, streamObject, words } from '../intake/make-pdf.ts';

/** References: ISO 32000-1, 12.7 (interactive forms); ISO 32000-2, 12.7 says the same of what is tested here. */
const at = bench();
afterAll(() => at.clear());

interface Given {
  /** Field dictionaries from object 10 on; each is in /Fields unless `fields` says otherwise. */
  readonly boxes: readonly string[];
  readonly form?: string;
  readonly fields?: string;
  /** Numbers of the annotations on the page. */
  readonly annots?: string;
  readonly more?: Objects;
  readonly page?: string;
}

/** A blank written byte by byte, kept as any paper is: what comes back are its sound pages. */
async function blankOf({ boxes, form = '/DA (/Helv 0 Tf 0 g)', fields, annots, more = {}, page = '' }: Given) {
  const refs = boxes.map((_, n) => `${10 + n} 0 R`).join(' ');
  const bytes = onePage({
    content: words('Application', 60, 740),
    page: `/MediaBox [ 0 0 612 792 ] /Annots [ ${annots ?? refs} ] ${page}`,
    catalog: `/AcroForm << /Fields [ ${fields ?? refs} ] ${form} >>`,
    more: { ...Object.fromEntries(boxes.map((box, n) => [10 + n, `<< ${box} >>`])), ...more },
  });
  const { output } = await at.keep(bytes, 'blank.pdf');
  return output;
}

function text(name: string, extra = '', rect = '60 600 300 620'): string {
  return `/Type /Annot /Subtype /Widget /FT /Tx /T (${name}) /Rect [ ${rect} ] /F 4 ${extra}`;
}

let count = 0;

async function fill(input: string, writes: readonly FieldWrite[], flatten = false) {
  count += 1;
  const output = at.path(`filled-${count}.pdf`);
  const done = await fillBlank({ job: 'fill form', input, name: 'blank', output, writes, flatten });
  return {
    ...done,
    output,
    fields: (await readBlank({ job: 'read form', input: output, name: 'x' }).catch(() => undefined))?.blank.fields,
  };
}

async function boxesOf(input: string): Promise<readonly BlankField[]> {
  return (await readBlank({ job: 'read form', input, name: 'blank' })).blank.fields;
}

const say = (field: string, said: string): FieldWrite => ({ field, write: 'text', text: said });

describe('the boxes of a blank', () => {
  it('are read with sort, cells, length, choices, hint, size and place (ISO 32000-1, 12.7.4)', async () => {
    const input = await blankOf({
      boxes: [
        text('parcel', '/TU (Parcel, digits only) /MaxLen 9 /Ff 16777216 /DA (/Helv 11 Tf 0 g)'),
        text('work', '/Ff 4096 /Q 1', '60 500 300 560'),
        '/Type /Annot /Subtype /Widget /FT /Ch /Ff 131072 /T (road) /Opt [ [ (c) (County) ] (State) ] /Rect [ 60 460 200 480 ] /F 4',
        '/Type /Annot /Subtype /Widget /FT /Sig /T (owner_sig) /Rect [ 60 400 200 420 ] /F 4',
        '/FT /Btn /Ff 49152 /T (sewage) /Kids [ 20 0 R 21 0 R ] /Opt [ (Septic) (Sewer) ]',
      ],
      annots: '10 0 R 11 0 R 12 0 R 13 0 R 20 0 R 21 0 R',
      more: {
        20: '<< /Type /Annot /Subtype /Widget /Parent 14 0 R /Rect [ 60 360 72 372 ] /F 4 >>',
        21: '<< /Type /Annot /Subtype /Widget /Parent 14 0 R /Rect [ 160 360 172 372 ] /F 4 >>',
      },
    });
    const fields = await boxesOf(input);
    expect(fields.map(({ name, sort }) => `${name}: ${sort}`)).toEqual([
      'parcel: text',
      'work: text',
      'road: choice',
      'owner_sig: signature',
      'sewage: radio',
    ]);
    expect(fields[0]).toMatchObject({ hint: 'Parcel, digits only', comb: true, longest: 9, size: 11 });
    expect(fields[1]).toMatchObject({ multiline: true, align: 'centre', size: 0 });
    expect(fields[2]?.options).toEqual([
      { value: 'c', label: 'County' },
      { value: 'State', label: 'State' },
    ]);
    expect(fields[4]?.options.map(({ label }) => label)).toEqual(['Septic', 'Sewer']);
    expect(fields[0]?.places[0]?.rect).toEqual({ x: 60, y: 600, width: 240, height: 20 });
  });

  it('lie on the page as seen where it is turned and cropped', async () => {
    const input = await blankOf({
      boxes: [text('a', '', '100 200 300 220')],
      page: '/Rotate 90 /CropBox [ 50 50 562 742 ]',
    });
    const [field] = await boxesOf(input);
    // A quarter turn clockwise: what was 150 from the crop's lower edge is 150 from its left now.
    expect(field?.places[0]?.rect).toEqual({ x: 150, y: 262, width: 20, height: 200 });
    const { output } = await fill(input, [say('a', 'Hạnh')]);
    expect((await sightOf(output)).width).toBe(692);
  });

  it('are none in a paper without a form', async () => {
    const { output } = await at.keep(onePage());
    expect((await readBlank({ job: 'read form', input: output, name: 'x' })).blank).toEqual({
      fields: [],
      pages: 1,
      xfa: 'none',
      sealed: false,
    });
  });
});

describe('filling', () => {
  it('draws Vietnamese and Greek names that the form’s own font lacks, and another reader finds them', async () => {
    const input = await blankOf({ boxes: [text('a', '/DA (/Helv 10 Tf 0 0 1 rg)'), text('b', '', '60 560 300 580')] });
    const { fields, filled } = await fill(input, [say('a', 'Hạnh Nguyễn Lindqvist'), say('b', 'Ελένη Παπαδοπούλου')]);
    expect(filled).toBe(2);
    expect(fields?.map(({ value }) => value)).toEqual(['Hạnh Nguyễn Lindqvist', 'Ελένη Παπαδοπούλου']);
  });

  it('gives the same bytes every time', async () => {
    const input = await blankOf({ boxes: [text('a')] });
    const [one, other] = [await fill(input, [say('a', 'Tomás')]), await fill(input, [say('a', 'Tomás')])];
    expect(one.sha256).toBe(other.sha256);
    expect(readFileSync(one.output).equals(readFileSync(other.output))).toBe(true);
  });

  it('sets a comb letter by letter, several lines within their box, a choice by its label', async () => {
    const input = await blankOf({
      boxes: [
        text('parcel', '/MaxLen 9 /Ff 16777216 /MK << /BC [ 0 ] >>'),
        text('work', '/Ff 4096', '60 500 300 560'),
        '/Type /Annot /Subtype /Widget /FT /Ch /Ff 131072 /T (road) /Opt [ [ (c) (County) ] ] /Rect [ 60 460 200 480 ] /F 4',
        '/Type /Annot /Subtype /Widget /FT /Ch /T (zone) /Opt [ (X) (AE) (VE) ] /Rect [ 60 400 200 450 ] /F 4',
      ],
    });
    const { fields } = await fill(input, [
      say('parcel', '041220070'),
      say('work', 'New one-story dwelling, slab on grade, front porch, and a well-\nmade shed for tools'),
      { field: 'road', write: 'choice', value: 'c', text: 'County' },
      { field: 'zone', write: 'choice', value: 'AE', text: 'AE' },
    ]);
    expect(fields?.map(({ value }) => value?.slice(0, 9))).toEqual(['041220070', 'New one-s', 'c', 'AE']);
  });

  it('marks one radio of a group, and a tick box that has no looks of its own (12.7.4.2)', async () => {
    const input = await blankOf({
      boxes: [
        '/FT /Btn /Ff 49152 /T (sewage) /Kids [ 20 0 R 21 0 R ]',
        '/Type /Annot /Subtype /Widget /FT /Btn /T (owner_builds) /Rect [ 60 320 72 332 ] /F 4',
      ],
      annots: '20 0 R 21 0 R 11 0 R',
      more: {
        20: '<< /Type /Annot /Subtype /Widget /Parent 10 0 R /Rect [ 60 360 72 372 ] /F 4 /AS /Off /AP << /N << /Septic 30 0 R /Off 31 0 R >> >> >>',
        21: '<< /Type /Annot /Subtype /Widget /Parent 10 0 R /Rect [ 160 360 172 372 ] /F 4 /AS /Off /AP << /N << /Sewer 30 0 R /Off 31 0 R >> >> >>',
        30: streamObject('0 g 2 2 8 8 re f\n', '/Type /XObject /Subtype /Form /BBox [ 0 0 12 12 ]'),
        31: streamObject('0 G 2 2 8 8 re S\n', '/Type /XObject /Subtype /Form /BBox [ 0 0 12 12 ]'),
      },
    });
    const writes: readonly FieldWrite[] = [
      { field: 'sewage', write: 'state', state: 'Sewer' },
      { field: 'owner_builds', write: 'state', state: 'Yes' },
    ];
    const { fields, output } = await fill(input, writes);
    expect(fields?.map(({ value }) => value)).toEqual(['Sewer', 'Yes']);
    const document = await PDFDocument.load(readFileSync(output));
    const annotations = document.getPage(0).node.Annots();
    const shown = [0, 1, 2].map((n) => annotations?.lookup(n, PDFDict).lookup(PDFName.of('AS'))?.toString());
    expect(shown).toEqual(['/Off', '/Sewer', '/Yes']);
  });

  /** Two squares of one name, and a third box beside them; looks of their own where `looks` says so. */
  async function loanForm(looks: boolean): Promise<string> {
    const square = (state: string, x: number, as = 'Off'): string =>
      `<< /Type /Annot /Subtype /Widget /Parent 10 0 R /Rect [ ${x} 360 ${x + 12} 372 ] /F 4 /MK << /BC [ 0 ] >> ${
        looks ? `/AS /${as} /AP << /N << /${state} 30 0 R /Off 31 0 R >> >>` : ''
      } >>`;
    return await blankOf({
      boxes: [
        `/FT /Btn /T (loan) /Kids [ 20 0 R 21 0 R ] ${looks ? '' : '/Opt [ (No) (Yes) ]'}`,
        '/Type /Annot /Subtype /Widget /FT /Btn /T (came_ticked) /V /On /AS /On /Rect [ 260 360 272 372 ] /F 4 /AP << /N << /On 30 0 R /Off 31 0 R >> >>',
      ],
      annots: '20 0 R 21 0 R 11 0 R',
      more: {
        20: square('No', 60),
        21: square('Yes', 160),
        30: streamObject('0 g 2 2 8 8 re f\n', '/Type /XObject /Subtype /Form /BBox [ 0 0 12 12 ]'),
        31: streamObject('0 G 2 2 8 8 re S\n', '/Type /XObject /Subtype /Form /BBox [ 0 0 12 12 ]'),
      },
    });
  }

  it.each([
    ['looks of their own', true, 'Yes'],
    ['no looks, and words for each (12.7.4.2.3, Opt)', false, '1'],
  ])('marks the meant one of two squares of one name: %s', async (_name, looks, state) => {
    const input = await loanForm(looks);
    const [loan] = await boxesOf(input);
    expect(loan?.options.map(({ label }) => label)).toEqual(['No', 'Yes']);
    expect(loan?.places.map(({ on, rect }) => [on, rect.x])).toEqual([
      [looks ? 'No' : '0', 60],
      [state, 160],
    ]);
    const open = await fill(input, [{ field: 'loan', write: 'state', state }]);
    const flat = await fill(input, [{ field: 'loan', write: 'state', state }], true);
    const annotations = (await PDFDocument.load(readFileSync(open.output))).getPage(0).node.Annots();
    const shown = [0, 1, 2].map((n) => annotations?.lookup(n, PDFDict).lookup(PDFName.of('AS'))?.toString());
    expect(shown).toEqual(['/Off', `/${state}`, '/On']);
    expect(flat.fields).toEqual([]);
  });

  it('another square that carries a mark is caught by the reader that looks again, shown or not', async () => {
    const blank = await loanForm(true);
    const fields = await boxesOf(blank);
    const writes: readonly FieldWrite[] = [{ field: 'loan', write: 'state', state: 'Yes' }];
    const { output } = await fill(blank, writes);
    const copy = { blank, filled: output, fields, writes, units: [1] };
    expect(await readBack(copy)).toEqual([]);
    const marked = async (which: number, change: (box: PDFDict) => void) => {
      const document = await PDFDocument.load(readFileSync(output));
      const box = document.getPage(0).node.Annots()?.lookup(which, PDFDict);
      if (box !== undefined) change(box);
      const filled = at.path(`marked-${which}.pdf`);
      writeFileSync(filled, await document.save({ useObjectStreams: false }));
      return await readBack({ ...copy, filled });
    };
    const on = (state: string) => (box: PDFDict) => box.set(PDFName.of('AS'), PDFName.of(state));
    expect(await marked(0, on('No'))).toContain('"loan" is marked in a place nobody meant');
    expect(await marked(1, on('Off'))).toContain('the mark in "loan" doesn\'t show');
    const unseen = await marked(0, (box) => {
      on('No')(box);
      box.set(PDFName.of('F'), PDFNumber.of(2));
    });
    expect(unseen).toContain('"loan" is marked in a place nobody meant');
    // A box that came ticked stays ticked: that is the office's own word.
    expect(fields[1]?.value).toBe('On');
  });

  it('flattened, the values are part of the page, the boxes are gone, and links stay', async () => {
    const input = await blankOf({
      boxes: [text('a', '/MK << /R 90 >>', '60 500 90 700'), text('b', '', '120 600 300 620')],
      annots:
        '10 0 R 11 0 R << /Type /Annot /Subtype /Link /Rect [ 60 60 200 80 ] /A << /S /URI /URI (https://example.org/) >> >>',
    });
    const writes = [say('a', 'Upward Lane'), say('b', '418 Heron Lane')];
    const [open, flat] = [await fill(input, writes), await fill(input, writes, true)];
    expect(flat.fields).toEqual([]);
    const [was, is] = [await sightOf(open.output), await sightOf(flat.output)];
    expect(is.text).toContain('418 Heron Lane');
    expect(Buffer.compare(was.raster.pixels, is.raster.pixels)).toBe(0);
    expect(readFileSync(flat.output, 'latin1')).toContain('example.org');
    expect(flat.recipe).toBe('fill/1: values made part of the page');
  });
});

describe('forms with troubles of their own are filled right', () => {
  it('no looks at all, and values left for the reader to draw: those it came with show too (12.7.2, NeedAppearances)', async () => {
    const input = await blankOf({
      boxes: [text('a'), text('county', '/V (Brindlemoor)', '60 560 300 580')],
      form: '/DA (/Helv 0 Tf 0 g) /NeedAppearances true',
    });
    const { output } = await fill(input, [say('a', 'Hạnh')], true);
    expect((await sightOf(output)).text).toMatch(/Hạnh[\s\S]*Brindlemoor/);
  });

  it('a font that boxes name and the form’s resources lack (12.7.2: DR; 12.7.3.3: DA)', async () => {
    const input = await blankOf({
      boxes: [text('a', '/DA (/Blue 10 Tf 0 g)'), text('b', '', '60 560 300 580')],
      form: '',
    });
    const { output } = await fill(input, [say('a', 'one'), say('b', 'two')]);
    const document = await PDFDocument.load(readFileSync(output));
    const resources = document.catalog.lookup(PDFName.of('AcroForm'))?.toString() ?? '';
    expect(resources).toContain('/DR');
    expect(resources).toContain('/Blue');
    expect(resources).toContain('/DA (/Helv 0 Tf 0 g)');
  });

  it('a tree of fields with parents and kids, what they inherit, and one name in two places (12.7.3.1, 12.7.3.2)', async () => {
    const input = await blankOf({
      boxes: [
        '/T (owner) /FT /Tx /DA (/Helv 9 Tf 0 g) /Kids [ 20 0 R 21 0 R ]',
        text('place', '', '60 560 300 580'),
        text('place', '', '60 520 300 540'),
      ],
      annots: '20 0 R 22 0 R 23 0 R 11 0 R 12 0 R',
      more: {
        20: '<< /Type /Annot /Subtype /Widget /T (name) /Parent 10 0 R /Rect [ 60 600 300 620 ] /F 4 >>',
        21: '<< /T (phone) /Parent 10 0 R /Kids [ 22 0 R 23 0 R ] >>',
        22: '<< /Type /Annot /Subtype /Widget /Parent 21 0 R /Rect [ 320 600 420 620 ] /F 4 >>',
        23: '<< /Type /Annot /Subtype /Widget /Parent 21 0 R /Rect [ 320 560 420 580 ] /F 4 >>',
      },
    });
    const before = await boxesOf(input);
    expect(before.map(({ name, places, size }) => [name, places.length, size])).toEqual([
      ['owner.name', 1, 9],
      ['owner.phone', 2, 9],
      ['place', 2, 0],
    ]);
    const { output } = await fill(
      input,
      [say('owner.name', 'Hạnh'), say('owner.phone', '555-0142'), say('place', '418 Heron Lane')],
      true,
    );
    const seen = (await sightOf(output)).text;
    expect(seen.match(/555-0142/g)).toHaveLength(2);
    expect(seen.match(/418 Heron Lane/g)).toHaveLength(2);
  });

  it('boxes on the page that no list of fields names', async () => {
    const input = await blankOf({ boxes: [text('a')], fields: '' });
    const { fields } = await fill(input, [say('a', 'found')]);
    expect(fields?.map(({ name, value }) => [name, value])).toEqual([['a', 'found']]);
  });

  it('a half in XFA beside ordinary boxes is left out, so that nobody shows its old values (12.7.8)', async () => {
    const input = await blankOf({
      boxes: [text('a')],
      form: '/DA (/Helv 0 Tf 0 g) /XFA 40 0 R',
      more: { 40: streamObject('<xdp/>') },
    });
    expect((await readBlank({ job: 'read form', input, name: 'x' })).blank.xfa).toBe('beside');
    const { output } = await fill(input, [say('a', 'ordinary')]);
    expect(readFileSync(output, 'latin1')).not.toContain('XFA');
  });
});

describe('what is never done', () => {
  it('a form in XFA alone is told when it comes in: nothing else can show it', async () => {
    const bytes = onePage({
      content: words('Please wait...', 60, 600),
      catalog: '/AcroForm << /Fields [ ] /XFA 40 0 R >> /NeedsRendering true',
      more: { 40: streamObject('<xdp:xdp xmlns:xdp="http://ns.adobe.com/xdp/"><template/></xdp:xdp>') },
    });
    await expect(at.keep(bytes, 'permit form.pdf')).rejects.toMatchObject({
      code: 'file refused',
      message: '"permit form.pdf" is a form that only shows a "please wait" sheet outside of its own program.',
      next: expect.stringContaining('print it to PDF'),
    });
  });

  it('a signature field is not touched, whoever asks', async () => {
    const input = await blankOf({
      boxes: ['/Type /Annot /Subtype /Widget /FT /Sig /T (s) /Rect [ 60 400 200 420 ] /F 4'],
    });
    await expect(fill(input, [say('s', 'Hạnh')])).rejects.toMatchObject({ code: 'file refused' });
  });

  it('a signed form is not filled: the signature would break', async () => {
    const input = await blankOf({
      boxes: [text('a'), '/Type /Annot /Subtype /Widget /FT /Sig /T (s) /Rect [ 60 400 200 420 ] /F 4 /V 41 0 R'],
      more: { 41: '<< /Type /Sig /Filter /Adobe.PPKLite /ByteRange [ 0 1 2 3 ] /Contents <00> >>' },
    });
    await expect(fill(input, [say('a', 'x')])).rejects.toMatchObject({
      message: expect.stringContaining('digitally signed'),
    });
  });

  it('a value that doesn’t show is refused, and nothing is left behind', async () => {
    const input = await blankOf({ boxes: [text('a', '', '60 600 62 601')] });
    count += 1;
    const output = at.path(`filled-${count}.pdf`);
    const asked = fillBlank({
      job: 'fill form',
      input,
      name: 'blank',
      output,
      writes: [say('a', 'far too long for it')],
      flatten: false,
    });
    await expect(asked).rejects.toMatchObject({ code: 'file refused' });
    expect(() => readFileSync(output)).toThrow('ENOENT');
  });

  it('a hidden box that takes a value without showing it is caught by the reader that looks again', async () => {
    const input = await blankOf({ boxes: [text('a', '/F 2').replace('/F 4 ', '')] });
    await expect(fill(input, [say('a', 'unseen')])).rejects.toMatchObject({
      message: '"blank" could not be filled: "unseen" doesn\'t show in "a".',
    });
  });

  it('a damaged blank is refused in a sentence', async () => {
    const input = at.path('noise.pdf');
    writeFileSync(input, 'no pdf at all');
    await expect(readBlank({ job: 'read form', input, name: 'noise' })).rejects.toMatchObject({
      code: 'file refused',
      message: 'The boxes of "noise" can\'t be read.',
    });
  });
});
