import { deflateSync } from 'node:zlib';
import { type Objects, onePage, streamObject, words } from '../make-pdf.ts';
import { changed, plainText, sound, type Trouble, withTable } from './trouble.ts';

const kept = { rung: 'normalised', text: plainText } as const;

/** A page that shows object 6 as a picture. */
function pictured(dict: string, data: Buffer, more: Objects = {}): Buffer {
  return onePage({
    content: `${words()}q 200 0 0 200 100 100 cm /Im Do Q\n`,
    resources: '/XObject << /Im 6 0 R >>',
    more: { 6: streamObject(data, `/Type /XObject /Subtype /Image ${dict}`), ...more },
  });
}

const grey = (size: number): string => `/Width ${size} /Height ${size} /BitsPerComponent 8 /ColorSpace /DeviceGray`;
const bilevel = '/Width 32 /Height 32 /BitsPerComponent 1 /ColorSpace /DeviceGray';
const ramp = Buffer.from(Array.from({ length: 256 }, (_, at) => at));

/** A black bar from column 8 to 24 in 32 rows, in ITU-T T.6: the first row in horizontal mode, the others V0 V0 V0. */
function group4(rows = 32): Buffer {
  const bits = `001${'10011'}${'0000010111'}1${'111'.repeat(rows - 1)}${'000000000001'.repeat(2)}`;
  return Buffer.from(
    (bits.padEnd(Math.ceil(bits.length / 8) * 8, '0').match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)),
  );
}

/** The same bar in JBIG2 (ITU-T T.88): page information, then one generic region coded as T.6. */
function jbig2(): Buffer {
  const word = (value: number): Buffer =>
    Buffer.from([value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255]);
  const segment = (number: number, kind: number, data: Buffer): Buffer =>
    Buffer.concat([word(number), Buffer.from([kind, 0, 1]), word(data.length), data]);
  const page = Buffer.concat([word(32), word(32), word(0), word(0), Buffer.from([0, 0, 0])]);
  const region = Buffer.concat([word(32), word(32), word(0), word(0), Buffer.from([0, 1]), group4()]);
  return Buffer.concat([segment(0, 48, page), segment(1, 38, region)]);
}

/** A black square on white, 24 x 24, written once with OpenJPEG 2.5 (ISO/IEC 15444-1). */
const jpx = Buffer.from(
  'AAAADGpQICANCocKAAAAFGZ0eXBqcDIgAAAAAGpwMiAAAAAtanAyaAAAABZpaGRyAAAAGAAAABgAAQcHAAAAAAAPY29scgEAAAAAABEAAAFqanAyY/9P/1EAKQAAAAAAGAAAABgAAAAAAAAAAAAAABgAAAAYAAAAAAAAAAAAAQcBAf9SAAwAAAABAAAEBAAB/1wABEBA/2QAJQABQ3JlYXRlZCBieSBPcGVuSlBFRyB2ZXJzaW9uIDIuNS4w/5AACgAAAAAA+AAB/5Pfhc6KmI2V21DZUMbz8twfX5GbRJQXQZCYoqvKwWJ5AAAABhIS9aG/yAAAABhIS6ubCKLwTEpOdEwvwWMJBvTzCQdE9wkHRPcJB0lGCYlJznOiYh7hNs6CKLwTEpOiYX4LGEg3p5hIOie4SDonuEg6SjBMSk5znRMQ9wm2dBFF4JiUnRML8FjCQb08wkHRPcJB0T3CQdJRgmJSc5zomIe4TbOgii8ExKTomF+CxhIN6eYSDonuEg6J7hIOkowTEpOc50TEPcJtnQRReCYlJ0TC/BYwkG9PMJB0T3CQdE9wkHSUYJiUnOc6JiH/2Q==',
  'base64',
);

export const pictures: readonly Trouble[] = [
  {
    what: 'a fax picture (CCITT)',
    make: () => pictured(`${bilevel} /Filter /CCITTFaxDecode /DecodeParms << /K -1 /Columns 32 /Rows 32 >>`, group4()),
    ends: kept,
  },
  { what: 'a JBIG2 picture', make: () => pictured(`${bilevel} /Filter /JBIG2Decode`, jbig2()), ends: kept },
  { what: 'a JPEG 2000 picture', make: () => pictured('/Width 24 /Height 24 /Filter /JPXDecode', jpx), ends: kept },
  {
    what: 'a picture packed by PNG rules',
    make: () =>
      pictured(
        `${grey(16)} /Filter /FlateDecode /DecodeParms << /Predictor 15 /Columns 16 >>`,
        deflateSync(
          Buffer.concat(
            Array.from({ length: 16 }, (_, row) =>
              Buffer.concat([Buffer.from([0]), ramp.subarray(row * 16, row * 16 + 16)]),
            ),
          ),
        ),
      ),
    ends: kept,
  },
  {
    what: 'a picture in run lengths and letters',
    make: () =>
      pictured(
        `${grey(16)} /Filter [ /ASCIIHexDecode /RunLengthDecode ]`,
        Buffer.from(
          `${Buffer.concat([Buffer.from([127]), ramp.subarray(0, 128), Buffer.from([127]), ramp.subarray(128), Buffer.from([128])]).toString('hex')}>`,
        ),
      ),
    ends: kept,
  },
  {
    what: 'a picture with a mask',
    make: () =>
      pictured(`${grey(16)} /SMask 7 0 R`, ramp, {
        7: streamObject(Buffer.from(ramp).reverse(), `/Type /XObject /Subtype /Image ${grey(16)}`),
      }),
    ends: kept,
  },
  { what: 'a picture with fewer bytes than pixels', make: () => pictured(grey(16), ramp.subarray(0, 100)), ends: kept },
  {
    what: 'a picture that claims a million rows',
    make: () => pictured('/Width 16 /Height 1000000 /BitsPerComponent 8 /ColorSpace /DeviceGray', ramp),
    ends: kept,
  },
  {
    what: 'a picture in a colour space that is missing',
    make: () => pictured('/Width 16 /Height 16 /BitsPerComponent 8 /ColorSpace 66 0 R', ramp),
    ends: { ...kept, rung: 'pages as pictures', notes: /kept as pictures/ },
  },
  {
    what: 'an inline picture',
    make: () =>
      onePage({ content: `${words()}q 200 0 0 200 100 100 cm BI /W 2 /H 2 /BPC 8 /CS /G ID \0\u00ff\u00ff\0 EI Q\n` }),
    ends: kept,
  },
  {
    what: 'an inline picture that never ends',
    make: () => onePage({ content: `${words()}q 200 0 0 200 100 100 cm BI /W 9 /H 9 /BPC 8 /CS /G ID \0\u00ff` }),
    ends: kept,
  },
];

const packed = (text: string): Buffer => deflateSync(Buffer.from(text, 'latin1'));
const flate = '/Filter /FlateDecode';

export const contents: readonly Trouble[] = [
  {
    what: 'saves left open (q without Q)',
    make: () => onePage({ content: `q q 1 0 0 1 20 20 cm\n${words()}` }),
    ends: kept,
  },
  { what: 'restores too many (Q without q)', make: () => onePage({ content: `Q Q\n${words()}Q` }), ends: kept },
  {
    what: 'text left open (BT without ET)',
    make: () => onePage({ content: `BT /F1 18 Tf 100 400 Td (${plainText}) Tj` }),
    ends: kept,
  },
  {
    what: 'content in pieces that break a word of it',
    make: () => {
      const pieces = { 6: streamObject('BT /F1 18'), 7: streamObject(` Tf 100 400 Td (${plainText}) Tj ET`) };
      return changed(onePage({ more: pieces }), [/\/Contents 4 0 R/, '/Contents [ 6 0 R 7 0 R ]']);
    },
    ends: { rung: 're-saved, then normalised', text: plainText },
  },
  {
    what: 'packed content whose checksum is wrong',
    make: () =>
      onePage({ content: Buffer.concat([packed(words()).subarray(0, -4), Buffer.from('xxxx')]), contentDict: flate }),
    ends: kept,
  },
  {
    what: 'packed content cut short',
    make: () =>
      onePage({ content: packed(`${words()}${'0 0 m 1 1 l S\n'.repeat(99)}`).subarray(0, -12), contentDict: flate }),
    ends: kept,
  },
  {
    what: 'packed content that is rubbish',
    make: () => onePage({ content: 'rubbish, not zlib', contentDict: flate }),
    ends: { rung: 'normalised' },
  },
  {
    what: 'content packed by a filter that nobody knows',
    make: () => onePage({ contentDict: '/Filter /NobodysDecode' }),
    ends: { rung: 'normalised' },
  },
  {
    what: 'content that unpacks to a hundred times its size',
    make: () => onePage({ content: packed(`${words()}${' '.repeat(3_000_000)}`), contentDict: flate }),
    ends: kept,
  },
  {
    what: 'words that are no operators',
    make: () => onePage({ content: `${words()}wibble 1 2 wobble ((( >> ] Tj\n` }),
    ends: kept,
  },
  {
    what: 'a font that is not there',
    make: () => onePage({ content: `${words()}BT /F9 18 Tf 100 300 Td (Ghost) Tj ET\n` }),
    ends: kept,
  },
  {
    what: 'a font that is not in the file',
    make: () => withTable(changed(sound, [/\/Helvetica/, '/Monaco'])),
    ends: { ...kept, leaveOut: 'pictures' },
  },
  {
    what: 'letters drawn by the file itself (Type 3)',
    make: () =>
      onePage({
        content: `${words()}BT /T3 20 Tf 100 200 Td (aa) Tj ET\n`,
        resources: '/Font << /F1 5 0 R /T3 6 0 R >>',
        more: {
          6: '<< /Type /Font /Subtype /Type3 /FontBBox [ 0 0 1 1 ] /FontMatrix [ 1 0 0 1 0 0 ] /CharProcs << /a 7 0 R >> /Encoding << /Type /Encoding /Differences [ 97 /a ] >> /FirstChar 97 /LastChar 97 /Widths [ 1 ] /Resources << >> >>',
          7: streamObject('1 0 d0 0 0 0.8 0.8 re f'),
        },
      }),
    ends: { rung: 'normalised' },
  },
  {
    what: 'a drawing that holds itself',
    make: () =>
      onePage({
        content: `${words()}/Fm Do\n`,
        resources: '/XObject << /Fm 6 0 R >>',
        more: {
          6: streamObject(
            '0 0 50 50 re f /Fm Do',
            '/Type /XObject /Subtype /Form /BBox [ 0 0 100 100 ] /Resources << /XObject << /Fm 6 0 R >> >>',
          ),
        },
      }),
    ends: kept,
  },
  {
    what: 'twenty drawings one inside the other',
    make: () =>
      onePage({
        content: `${words()}/Fm Do\n`,
        resources: '/XObject << /Fm 6 0 R >>',
        more: Object.fromEntries(
          Array.from({ length: 20 }, (_, n) => [
            n + 6,
            streamObject(
              n === 19 ? '10 10 50 50 re f' : '/Fm Do',
              `/Type /XObject /Subtype /Form /BBox [ 0 0 100 100 ] /Resources << /XObject << /Fm ${n + 7} 0 R >> >>`,
            ),
          ]),
        ),
      }),
    ends: kept,
  },
  {
    what: 'see-through colours',
    make: () =>
      onePage({
        page: '/MediaBox [ 0 0 612 792 ] /Group << /S /Transparency /CS /DeviceRGB >>',
        content: `${words()}/G gs 1 0 0 rg 90 380 300 60 re f\n`,
        resources: '/ExtGState << /G << /ca 0.4 /BM /Multiply >> >>',
      }),
    ends: kept,
  },
  {
    what: 'a shading',
    make: () =>
      onePage({
        content: `${words()}q 100 100 200 200 re W n /Sh sh Q\n`,
        resources:
          '/Shading << /Sh << /ShadingType 2 /ColorSpace /DeviceRGB /Coords [ 100 0 300 0 ] /Function << /FunctionType 2 /Domain [ 0 1 ] /C0 [ 1 0 0 ] /C1 [ 0 0 1 ] /N 1 >> >> >>',
      }),
    ends: kept,
  },
  {
    what: 'white words that nobody sees',
    make: () =>
      onePage({ content: `1 g\n${words('These forty words and letters stand on the page in white, unseen by all')}` }),
    ends: { rung: 'normalised', notes: /looks empty though it holds text/ },
  },
  {
    what: 'resources that lead nowhere',
    make: () => changed(sound, [/\/Resources << .*? >> *>>/, '/Resources 99 0 R']),
    ends: { rung: 're-saved, then normalised' },
  },
];
