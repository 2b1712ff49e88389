import { onePage, pdfOf, streamObject, throughQpdf, words } from '../make-pdf.ts';
import { changed, plainText, sound, type Trouble, withTable } from './trouble.ts';

const kept = { rung: 'normalised', text: plainText, like: sound } as const;
const resaved = { ...kept, rung: 're-saved, then normalised' } as const;
const after = (bytes: Uint8Array, tail: string): Buffer => Buffer.concat([bytes, Buffer.from(tail, 'latin1')]);

/** An update appended to the file: object 4 says something else. */
function updated(previous: string, text = plainText): Buffer {
  const base = onePage({ content: words('First state') });
  const start = base.length;
  const stream = streamObject(words(text));
  const object = Buffer.concat([Buffer.from('4 0 obj\n'), stream, Buffer.from('\nendobj\n')]);
  const back = previous === 'sound' ? (/startxref\n(\d+)/.exec(base.toString('latin1'))?.[1] ?? '') : previous;
  const at = start + object.length;
  const table = `xref\n4 1\n${String(start).padStart(10, '0')} 00000 n \ntrailer\n<< /Root 1 0 R /Size 6 /Prev ${
    back === 'itself' ? at : back
  } >>\nstartxref\n${at}\n%%EOF\n`;
  return Buffer.concat([base, object, Buffer.from(table)]);
}

/** The content stands under a number far beyond the others. */
const sparse = (number: number): Buffer => {
  const text = sound.toString('latin1').replaceAll('4 0 R', `${number} 0 R`).replace('4 0 obj', `${number} 0 obj`);
  const content = text.indexOf(`${number} 0 obj`);
  const start = text.lastIndexOf('xref\n0 ');
  const body = text.slice(0, start);
  const rows = [1, 2, 3, 5].map((n) => `${n} 1\n${String(body.indexOf(`${n} 0 obj`)).padStart(10, '0')} 00000 n \n`);
  return Buffer.from(
    `${body}xref\n0 1\n0000000000 65535 f \n${rows.join('')}${number} 1\n${String(content).padStart(10, '0')} 00000 n \ntrailer\n<< /Root 1 0 R /Size ${number + 1} >>\nstartxref\n${start}\n%%EOF\n`,
    'latin1',
  );
};

export const tables: readonly Trouble[] = [
  {
    what: 'a table of objects that points nowhere',
    make: () => changed(sound, [/\d{10} 00000 n/g, '0000000001 00000 n']),
    ends: resaved,
  },
  {
    what: 'a table of objects off by two bytes',
    make: () => changed(sound, [/^%PDF-1.7\n/, '%PDF-1.7\n%\n']),
    ends: resaved,
  },
  { what: 'no table of objects', make: () => changed(sound, [/xref\n0[\s\S]*(?=trailer)/, '']), ends: resaved },
  {
    what: 'a start of the table that lies',
    make: () => changed(sound, [/startxref\n\d+/, 'startxref\n99999']),
    ends: resaved,
  },
  { what: 'no start of the table', make: () => changed(sound, [/startxref\n\d+\n%%EOF\n/, '']), ends: resaved },
  { what: 'no mark at its end', make: () => changed(sound, [/%%EOF\n/, '']), ends: kept },
  { what: 'rows of 19 bytes', make: () => changed(sound, [/ n \n/g, ' n\n'], [/ f \n/g, ' f\n']), ends: kept },
  { what: 'a table that starts at object 1', make: () => changed(sound, [/xref\n0 6/, 'xref\n1 6']), ends: resaved },
  { what: 'too few rows in its table', make: () => changed(sound, [/xref\n0 6/, 'xref\n0 4']), ends: resaved },
  { what: 'no size in its trailer', make: () => changed(sound, [/\/Size 6/, '']), ends: resaved },
  { what: 'no root in its trailer', make: () => changed(sound, [/\/Root 1 0 R/, '']), ends: { refused: /damaged/ } },
  { what: 'an older state under an update', make: () => updated('sound'), ends: kept },
  { what: 'an update that points back at itself', make: () => updated('itself'), ends: resaved },
  { what: 'an update that points back into nothing', make: () => updated('999999'), ends: resaved },
  { what: 'packed objects', make: () => throughQpdf(sound, ['--object-streams=generate']), ends: kept },
  {
    what: 'a packed table that points nowhere',
    async make() {
      const packed = await throughQpdf(sound, ['--object-streams=generate']);
      return changed(packed, [/startxref\n\d+/, 'startxref\n7']);
    },
    ends: resaved,
  },
  { what: 'an order for slow lines (linearised)', make: () => throughQpdf(sound, ['--linearize']), ends: kept },
  {
    what: 'an order for slow lines that an update broke',
    async make() {
      return Buffer.concat([await throughQpdf(sound, ['--linearize']), Buffer.from('%%EOF trailing\n')]);
    },
    ends: kept,
  },
  { what: 'object numbers beyond its length', make: () => sparse(250_000), ends: resaved },
];

export const bodies: readonly Trouble[] = [
  { what: 'a missing endobj', make: () => withTable(changed(sound, [/\nendobj\n5 0 obj/, '\n5 0 obj'])), ends: kept },
  { what: 'no endobj at all', make: () => withTable(changed(sound, [/\nendobj\n/g, '\n'])), ends: kept },
  { what: 'a missing endstream', make: () => withTable(changed(sound, [/\nendstream/, ''])), ends: resaved },
  {
    what: 'a stream length that is too short',
    make: () => changed(sound, [/\/Length (\d+)/, '/Length 11']),
    ends: resaved,
  },
  {
    what: 'a stream length that is too long',
    make: () => changed(sound, [/\/Length (\d+)/, '/Length 95']),
    ends: resaved,
  },
  {
    what: 'a stream length below zero',
    make: () => withTable(changed(sound, [/\/Length \d+/, '/Length -5'])),
    ends: resaved,
  },
  { what: 'a stream without length', make: () => withTable(changed(sound, [/\/Length \d+/, ''])), ends: resaved },
  {
    what: 'a stream length that stands elsewhere',
    make: () => withTable(changed(onePage({ more: { 6: String(words().length) } }), [/\/Length \d+/, '/Length 6 0 R'])),
    ends: kept,
  },
  {
    what: 'a stream length that stands nowhere',
    make: () => withTable(changed(sound, [/\/Length \d+/, '/Length 9 0 R'])),
    ends: resaved,
  },
  {
    what: 'the word endstream inside a stream',
    make: () => onePage({ content: `% endstream endobj 7 0 obj\n${words()}` }),
    ends: kept,
  },
  {
    what: 'a bare carriage return after "stream"',
    make: () => withTable(changed(sound, [/stream\n/, 'stream\r'])),
    ends: kept,
  },
  {
    what: 'carriage returns for line ends',
    make: () => changed(sound, [/(trailer|xref\n0 6|startxref)\n/g, '$1\r']),
    ends: kept,
  },
  {
    what: 'generations above zero',
    make: () => changed(sound, [/4 0 obj/, '4 3 obj'], [/4 0 R/, '4 3 R']),
    ends: resaved,
  },
  {
    what: 'an object that stands twice, the later one meant',
    make: () =>
      after(
        changed(sound, [/Septic permit 4711/, 'Another, older text']).subarray(0, -1),
        `\n4 0 obj\n<< /Length ${words().length} >>\nstream\n${words()}\nendstream\nendobj\n`,
      ),
    ends: { ...kept, text: 'Another, older text', like: changed(sound, [/Septic permit 4711/, 'Another, older text']) },
  },
  {
    what: 'a mail program\u2019s junk before its header',
    make: () => Buffer.concat([Buffer.from('X-Mail: passed\r\n\r\n'), sound]),
    ends: kept,
  },
  { what: 'a thousand empty lines behind its end', make: () => after(sound, '\n'.repeat(1000)), ends: kept },
  { what: 'zeros behind its end', make: () => after(sound, '\0'.repeat(4000)), ends: resaved },
  {
    what: 'a web server\u2019s words behind its end',
    make: () => after(sound, '<html><body>done</body></html>'),
    ends: kept,
  },
  {
    what: 'its last third cut off',
    make: () => sound.subarray(0, Math.round(sound.length * 0.72)),
    ends: { refused: /breaks off before its end/ },
  },
  { what: 'a version from the future', make: () => changed(sound, [/%PDF-1.7/, '%PDF-9.9']), ends: kept },
  {
    what: 'a string that never ends',
    make: () => withTable(changed(sound, [/\/BaseFont/, '/Odd (open /BaseFont'])),
    ends: { rung: 're-saved, then normalised', text: '' },
  },
  {
    what: 'a dictionary key that is no name',
    make: () => withTable(changed(sound, [/\/Type \/Font/, '/Type /Font 12 34'])),
    ends: kept,
  },
  {
    what: 'names written with number signs',
    make: () => withTable(changed(sound, [/\/Contents/, '/#43ontents'], [/\/F1 5/, '/F#31 5'])),
    ends: kept,
  },
];

const two = (kids: string, count: number, more: Readonly<Record<number, string>> = {}): Buffer =>
  pdfOf({
    1: '<< /Type /Catalog /Pages 2 0 R >>',
    2: `<< /Type /Pages /Kids [ ${kids} ] /Count ${count} /MediaBox [ 0 0 612 792 ] /Resources << /Font << /F1 5 0 R >> >> >>`,
    3: '<< /Type /Page /Parent 2 0 R /Contents 4 0 R >>',
    4: streamObject(words()),
    5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    6: '<< /Type /Page /Parent 2 0 R /Contents 7 0 R >>',
    7: streamObject(words('Second sheet')),
    ...more,
  });

const twoPages = { rung: 'normalised', pages: 2, text: plainText, like: two('3 0 R 6 0 R', 2) } as const;

export const trees: readonly Trouble[] = [
  {
    what: 'a page that is its own parent',
    make: () => changed(onePage({ content: words() }), [/\/Type \/Page \/Parent 2 0 R/, '/Type /Page /Parent 3 0 R']),
    ends: { rung: 'normalised', text: plainText, like: sound },
  },
  {
    // A find of the fuzz: the reader that imports pages never came back.
    what: 'a page that is its own parent, and a picture that no copy shows alike',
    make: () =>
      changed(
        onePage({
          content: `${words()}q 200 0 0 200 100 100 cm /Im Do Q\n`,
          resources: '/XObject << /Im 6 0 R >>',
          more: {
            6: streamObject(
              Buffer.alloc(256, 7),
              '/Type /XObject /Subtype /Image /Width 16 /Height 16 /BitsPerComponent 8 /ColorSpace 66 0 R',
            ),
          },
        }),
        [/\/Type \/Page \/Parent 2 0 R/, '/Type /Page /Parent 3 0 R'],
      ),
    ends: { rung: 'pages as pictures', text: plainText },
  },
  { what: 'everything inherited from above', make: () => two('3 0 R 6 0 R', 2), ends: twoPages },
  {
    what: 'a page count that is too low',
    make: () => two('3 0 R 6 0 R', 1),
    ends: { ...twoPages, leaveOut: 'original', notes: /says that it has 1 page; 2 were found/ },
  },
  {
    what: 'a page count that is too high',
    make: () => two('3 0 R 6 0 R', 9),
    ends: { ...twoPages, leaveOut: 'original', notes: /says that it has 9 pages; only 2/ },
  },
  {
    what: 'a page that is missing from the tree',
    make: () => two('3 0 R 99 0 R 6 0 R', 3),
    ends: { ...twoPages, leaveOut: 'original', notes: /says that it has 3 pages; only 2/ },
  },
  {
    what: 'null in the list of pages',
    make: () => two('3 0 R null 6 0 R', 3),
    ends: { ...twoPages, leaveOut: 'original', notes: /says that it has 3 pages; only 2/ },
  },
  {
    what: 'the same page listed twice',
    make: () => two('3 0 R 3 0 R', 2),
    ends: { rung: 'normalised', pages: 2, text: plainText },
  },
  {
    what: 'a tree that bites its own tail',
    make: () => two('3 0 R 6 0 R 8 0 R', 2, { 8: '<< /Type /Pages /Parent 2 0 R /Count 0 /Kids [ 2 0 R ] >>' }),
    ends: { ...twoPages },
  },
  {
    what: 'pages in the list itself',
    make: () => two('<< /Type /Page /Parent 2 0 R /Contents 4 0 R >> 6 0 R', 2),
    ends: { ...twoPages },
  },
  {
    what: 'pages and nodes without their type',
    make: () =>
      changed(two('3 0 R 6 0 R', 2), [/\/Type \/Pages/g, '/Typo /Pages'], [/\/Type \/Page /g, '/Typo /Page ']),
    ends: { ...twoPages },
  },
  {
    what: 'an empty branch',
    make: () => two('8 0 R 3 0 R 6 0 R', 2, { 8: '<< /Type /Pages /Parent 2 0 R /Count 0 /Kids [ ] >>' }),
    ends: { ...twoPages },
  },
  {
    what: '2,000 pages',
    make: () =>
      two(
        Array.from({ length: 2000 }, (_, n) => `${n + 10} 0 R`).join(' '),
        2000,
        Object.fromEntries(
          Array.from({ length: 2000 }, (_, n) => [
            n + 10,
            `<< /Type /Page /Parent 2 0 R /MediaBox [ 90 390 250 420 ] /Contents ${n % 2 === 0 ? 4 : 7} 0 R >>`,
          ]),
        ),
      ),
    ends: { rung: 'normalised', pages: 2000, text: plainText },
  },
  {
    what: 'a page without content',
    make: () => two('3 0 R 8 0 R', 2, { 8: '<< /Type /Page /Parent 2 0 R >>' }),
    ends: { rung: 'normalised', pages: 2, text: plainText },
  },
  {
    what: 'a page whose content is missing',
    make: () => two('3 0 R 8 0 R', 2, { 8: '<< /Type /Page /Parent 2 0 R /Contents 77 0 R >>' }),
    ends: { rung: 'normalised', pages: 2, text: plainText },
  },
];
