import { onePage, words } from '../make-pdf.ts';
import { changed, plainText, type Trouble, withTable } from './trouble.ts';

const kept = { rung: 'normalised', text: plainText } as const;
const sheet = '/MediaBox [ 0 0 612 792 ]';
const box = (colour: string): string =>
  `<< /Type /XObject /Subtype /Form /BBox [ 0 0 100 40 ] /Length 36 >>\nstream\n${colour.padEnd(12)} rg 0 0 100 40 re f       \nendstream`;

/** A page with annotations 6, 7 ...; each may lean on what stands from 20 on. */
function annotated(annotations: readonly string[], more: Readonly<Record<number, string>> = {}, catalog = ''): Buffer {
  const refs = annotations.map((_, index) => `${index + 6} 0 R`).join(' ');
  return onePage({
    page: `${sheet} /Annots [ ${refs} ]`,
    catalog,
    more: { ...Object.fromEntries(annotations.map((text, index) => [index + 6, text])), ...more },
  });
}

const note = (keys: string): string => `<< /Type /Annot /Rect [ 100 500 200 540 ] /F 4 ${keys} >>`;
const form = (fields: string, more = ''): string =>
  `/AcroForm << /Fields [ ${fields} ] /DR << /Font << /Helv 5 0 R >> >> /DA (/Helv 12 Tf 0 g) ${more} >>`;

export const annotations: readonly Trouble[] = [
  {
    what: 'a comment with its picture',
    make: () => annotated([note('/Subtype /Stamp /AP << /N 20 0 R >>')], { 20: box('1 0 0') }),
    ends: kept,
  },
  {
    what: 'a highlight without a picture',
    make: () => annotated([note('/Subtype /Highlight /C [ 1 1 0 ] /QuadPoints [ 100 540 200 540 100 500 200 500 ]')]),
    ends: kept,
  },
  {
    what: 'a square without a picture',
    make: () => annotated([note('/Subtype /Square /C [ 1 0 0 ] /IC [ 0 1 0 ] /BS << /W 3 >>')]),
    ends: kept,
  },
  {
    what: 'ink without a picture',
    make: () => annotated([note('/Subtype /Ink /C [ 0 0 1 ] /InkList [ [ 100 500 150 540 200 500 ] ]')]),
    ends: kept,
  },
  {
    what: 'a hidden comment',
    make: () => annotated([note('/Subtype /Stamp /AP << /N 20 0 R >>').replace('/F 4', '/F 2')], { 20: box('1 0 0') }),
    ends: kept,
  },
  {
    what: 'a comment without a place',
    make: () => annotated(['<< /Type /Annot /Subtype /Stamp /AP << /N 20 0 R >> >>'], { 20: box('1 0 0') }),
    ends: kept,
  },
  {
    what: 'a frame round a link to another file',
    make: () =>
      annotated([note('/Subtype /Link /Border [ 0 0 2 ] /C [ 1 0 0 ] /A << /S /GoToR /F (b.pdf) /D [ 0 /Fit ] >>')]),
    ends: { ...kept, notes: /links to other files/ },
  },
  {
    what: 'a file attached to its page',
    make: () =>
      annotated(
        [note('/Subtype /FileAttachment /AP << /N 20 0 R >> /FS << /Type /Filespec /F (a.txt) /EF << /F 21 0 R >> >>')],
        { 20: box('0 0 1'), 21: '<< /Length 5 >>\nstream\nhello\nendstream' },
      ),
    ends: { ...kept, notes: /carries files inside/ },
  },
  { what: 'annotations that are no annotations', make: () => annotated(['(text)', 'null', '[ 1 2 ]']), ends: kept },
  {
    what: 'an annotation that hides in a layer',
    make: () =>
      annotated(
        [note('/Subtype /Stamp /AP << /N 20 0 R >> /OC 21 0 R')],
        { 20: box('1 0 0'), 21: '<< /Type /OCG /Name (Draft) >>' },
        '/OCProperties << /OCGs [ 21 0 R ] /D << /OFF [ 21 0 R ] >> >>',
      ),
    ends: kept,
  },
];

const textField =
  '<< /Type /Annot /Subtype /Widget /FT /Tx /T (parcel) /V (0471-22-9) /Rect [ 100 500 300 520 ] /P 3 0 R /F 4 /DA (/Helv 12 Tf 0 g)';
const tick = (state: string): string =>
  `<< /Type /Annot /Subtype /Widget /FT /Btn /T (yes) /V /${state} /AS /${state} /Rect [ 100 500 120 520 ] /P 3 0 R /F 4 /AP << /N << /On 20 0 R /Off 21 0 R >> >> >>`;

export const forms: readonly Trouble[] = [
  {
    what: 'a form field and its picture',
    make: () => annotated([`${textField} /AP << /N 20 0 R >> >>`], { 20: box('0 1 1') }, form('6 0 R')),
    ends: kept,
  },
  {
    what: 'a button that hides words, its name and kind above it, in a form that was left behind',
    make: () =>
      annotated(
        [
          '<< /Type /Annot /Subtype /Widget /Parent 22 0 R /Rect [ 90 390 190 430 ] /F 4 /P 3 0 R /MK << /BG [ 1 1 1 ] >> /AP << /N 20 0 R >> >>',
        ],
        { 20: box('0 1 1'), 22: '<< /FT /Btn /Ff 65536 /T (Hider) /Kids [ 6 0 R ] >>' },
      ),
    ends: kept,
  },
  { what: 'a form field that nobody drew', make: () => annotated([`${textField} >>`], {}, form('6 0 R')), ends: kept },
  {
    what: 'fields that its reader has to draw (NeedAppearances)',
    make: () =>
      annotated(
        [`${textField} /MK << /BC [ 1 0 0 ] /BG [ 0.9 0.9 1 ] >> /BS << /W 1 >> >>`],
        {},
        form('6 0 R', '/NeedAppearances true'),
      ),
    ends: { rung: 'fields drawn, then normalised', text: plainText, notes: /drawn once/ },
  },
  {
    what: 'a choice that its reader has to draw',
    make: () =>
      annotated(
        [
          '<< /Type /Annot /Subtype /Widget /FT /Ch /Ff 131072 /T (sewage) /V (septic) /Opt [ (septic) (sewer) ] /Rect [ 100 500 300 520 ] /P 3 0 R /F 4 /DA (/Helv 12 Tf 0 g) >>',
        ],
        {},
        form('6 0 R', '/NeedAppearances true'),
      ),
    ends: { rung: 'fields drawn, then normalised', text: plainText, notes: /drawn once/ },
  },
  {
    what: 'a ticked box',
    make: () => annotated([tick('On')], { 20: box('0 0 0'), 21: box('1 1 1') }, form('6 0 R')),
    ends: kept,
  },
  {
    what: 'an empty box',
    make: () => annotated([tick('Off')], { 20: box('0 0 0'), 21: box('1 1 1') }, form('6 0 R')),
    ends: kept,
  },
  {
    what: 'a field of two widgets',
    make: () =>
      annotated(
        [
          '<< /Type /Annot /Subtype /Widget /Parent 22 0 R /Rect [ 100 500 300 520 ] /F 4 /AP << /N 20 0 R >> >>',
          '<< /Type /Annot /Subtype /Widget /Parent 22 0 R /Rect [ 100 600 300 620 ] /F 4 /AP << /N 20 0 R >> >>',
        ],
        { 20: box('0 1 0'), 22: '<< /FT /Tx /T (parcel) /V (0471) /Kids [ 6 0 R 7 0 R ] >>' },
        form('22 0 R'),
      ),
    ends: kept,
  },
  {
    what: 'widgets and no form',
    make: () => annotated([`${textField} /AP << /N 20 0 R >> >>`], { 20: box('0 1 1') }),
    ends: kept,
  },
  {
    what: 'a form that lists a field which is gone',
    make: () => annotated([`${textField} /AP << /N 20 0 R >> >>`], { 20: box('0 1 1') }, form('6 0 R 88 0 R')),
    ends: kept,
  },
  {
    what: 'a signature line',
    make: () => annotated([note('/Subtype /Widget /FT /Sig /T (sign)')], {}, form('6 0 R', '/SigFlags 1')),
    ends: kept,
  },
  {
    what: 'a field above itself',
    make: () => annotated([`${textField} /Parent 6 0 R /AP << /N 20 0 R >> >>`], { 20: box('0 1 1') }, form('6 0 R')),
    ends: kept,
  },
  {
    what: 'an XFA part beside a form that stands by itself',
    make: () =>
      annotated([`${textField} /AP << /N 20 0 R >> >>`], { 20: box('0 1 1') }, form('6 0 R', '/XFA [ (a) 20 0 R ]')),
    ends: kept,
  },
];

const layered = (content: string, settings: string, more: Readonly<Record<number, string>> = {}): Buffer =>
  onePage({
    content: `${words()}${content}`,
    resources: '/Properties << /L1 6 0 R /L2 7 0 R /M 8 0 R >>',
    catalog: `/OCProperties << /OCGs [ 6 0 R 7 0 R ] /D << ${settings} >> >>`,
    more: {
      6: '<< /Type /OCG /Name (Draft) >>',
      7: '<< /Type /OCG /Name (Setbacks) >>',
      8: '<< /Type /OCMD /OCGs [ 6 0 R 7 0 R ] /P /AllOn >>',
      ...more,
    },
  });
const both = '/OC /L1 BDC 1 0 0 rg 100 100 80 50 re f EMC\n/OC /L2 BDC 0 0 1 rg 200 100 80 50 re f EMC\n';

export const layers: readonly Trouble[] = [
  { what: 'a layer its author hid', make: () => layered(both, '/OFF [ 6 0 R ] /Order [ 6 0 R 7 0 R ]'), ends: kept },
  { what: 'layers hidden from the start', make: () => layered(both, '/BaseState /OFF /ON [ 7 0 R ]'), ends: kept },
  {
    what: 'a layer that hangs on two others',
    make: () => layered('/OC /M BDC 0 1 0 rg 300 100 80 50 re f EMC\n', '/OFF [ 7 0 R ]'),
    ends: kept,
  },
  {
    what: 'a layer for the printer only',
    make: () =>
      layered(both, '/AS [ << /Event /View /Category [ /View ] /OCGs [ 6 0 R ] >> ]', {
        6: '<< /Type /OCG /Name (Draft) /Usage << /View << /ViewState /OFF >> >> >>',
      }),
    ends: kept,
  },
  {
    what: 'a layer that nobody closes',
    make: () => layered('/OC /L1 BDC 1 0 0 rg 100 100 80 50 re f\n', '/OFF [ 6 0 R ]'),
    ends: kept,
  },
  {
    what: 'layers that are not listed',
    make: () => withTable(changed(layered(both, ''), [/\/OCGs \[ 6 0 R 7 0 R \] \/D/, '/OCGs [ ] /D'])),
    ends: kept,
  },
];
