import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { bench } from '../keeping.ts';
import { drawnL, letterL } from '../make-pictures.ts';
import { oldBmpOf } from './make-bmp.ts';
import { packedSamples, type TiffPicture, tiffOf } from './make-tiff.ts';
import { expectL } from './seen-l.ts';

const at = bench();
afterAll(() => at.clear());

const [width, height] = [600, 400];
const rgb = letterL();
const grey = Buffer.from(rgb.filter((_, index) => index % 3 === 1));

function tiff(picture: Omit<TiffPicture, 'width' | 'height'>): Buffer {
  return tiffOf([{ width, height, ...picture }]);
}

/** Each colour on a plane of its own (tag 284). */
const onPlanes = Buffer.concat([0, 1, 2].map((colour) => rgb.filter((_, index) => index % 3 === colour)));

/** Three strips, a plane each: their places and lengths stand behind them (tags 273, 279). */
function planar(data: Buffer): Buffer {
  const lists = Buffer.alloc(24);
  for (const n of [0, 1, 2]) {
    lists.writeUInt32LE(8 + (n * data.length) / 3, n * 4);
    lists.writeUInt32LE(data.length / 3, 12 + n * 4);
  }
  const more = [
    [273, 4, 8 + data.length, 3],
    [279, 4, 20 + data.length, 3],
    [284, 3, 2],
  ] as const;
  return tiff({ bits: 12, samples: 3, data: Buffer.concat([data, lists]), more });
}

describe('a TIFF whose samples are no bytes (TIFF 6.0: BitsPerSample, packed from the highest bit on)', () => {
  it.each([10, 12, 14, 6])('of %i bits shows as drawn, in grey and in colour', async (bits) => {
    const inGrey = tiff({ bits, data: packedSamples(grey, { bits, across: width }) });
    const inColour = tiff({ bits, samples: 3, data: packedSamples(rgb, { bits, across: width * 3 }) });
    for (const bytes of [inGrey, inColour]) {
      const kept = await at.keep(bytes, 'scan.tif');
      expect(kept.rendition.recipe).toMatch(/turned into 8 bits/);
      await expectL(kept.output);
    }
  });

  it('shows as drawn where white is nothing, packed, on planes, or lying on its side', async () => {
    const upside = tiff({
      bits: 12,
      photometric: 0,
      data: packedSamples(
        grey.map((v) => 255 - v),
        { bits: 12, across: width },
      ),
    });
    const packed = tiff({
      bits: 12,
      compression: 8,
      data: deflateSync(packedSamples(grey, { bits: 12, across: width })),
    });
    const planes = planar(packedSamples(onPlanes, { bits: 12, across: width }));
    const { data, info } = await drawnL().rotate(90).raw().toBuffer({ resolveWithObject: true });
    const side = tiffOf([
      {
        width: info.width,
        height: info.height,
        bits: 12,
        samples: 3,
        orientation: 8,
        data: packedSamples(data, { bits: 12, across: info.width * 3 }),
      },
    ]);
    for (const bytes of [upside, packed, planes, side]) await expectL((await at.keep(bytes, 'scan.tif')).output);
  });
});

/** The L as another library (libvips) turns it into L*a*b*: floats, L 0 to 100. */
async function labOfL(): Promise<Float32Array> {
  const { data } = await sharp(rgb, { raw: { width, height, channels: 3 } })
    .toColourspace('lab')
    .raw({ depth: 'float' })
    .toBuffer({ resolveWithObject: true });
  return new Float32Array(data.buffer, data.byteOffset, data.length / 4);
}

describe('a TIFF in CIE L*a*b* (TIFF 6.0, section 23)', () => {
  it('shows as drawn, with a and b signed (8), and as colour profiles write it (9), with 8 and 16 bits', async () => {
    const lab = await labOfL();
    const whole = (value: number, n: number) => Math.round(n % 3 === 0 ? value * 2.55 : value);
    const signed = Buffer.from(Array.from(lab, (value, n) => whole(value, n) & 0xff));
    const profile = Buffer.from(Array.from(lab, (value, n) => whole(value, n) + (n % 3 === 0 ? 0 : 128)));
    const deep = Buffer.alloc(profile.length * 2);
    profile.forEach((value, n) => {
      deep.writeUInt16LE(value * 256, n * 2);
    });
    const files = [
      tiff({ bits: 8, samples: 3, photometric: 8, data: signed }),
      tiff({ bits: 8, samples: 3, photometric: 9, data: profile }),
      tiff({ bits: 16, samples: 3, photometric: 9, data: deep }),
    ];
    for (const bytes of files) await expectL((await at.keep(bytes, 'lab.tif')).output);
  });
});

describe('a BMP of an older system (OS/2 1.x and 2.x heads)', () => {
  it.each([
    [12, 24],
    [12, 8],
    [12, 1],
    [16, 8],
    [64, 24],
    [64, 1],
  ] as const)('with a head of %i bytes and %i bits a dot shows as drawn', async (head, bits) => {
    await expectL((await at.keep(oldBmpOf(rgb, { width, height }, { head, bits }), 'old.bmp')).output);
  });

  it('that breaks off is refused as damaged', async () => {
    const sound = oldBmpOf(rgb, { width, height }, { head: 12, bits: 24 });
    for (const bytes of [sound.subarray(0, 25), sound.subarray(0, 9000)]) {
      await expect(at.keep(bytes, 'old.bmp')).rejects.toMatchObject({ message: expect.stringMatching(/damaged/) });
    }
  });
});

/** A sound JPEG whose frame (ITU-T T.81, B.2.2) says something else; nothing after it is looked at. */
async function jpegWithFrame(marker: number, precision: number): Promise<Buffer> {
  const bytes = Buffer.from(await drawnL().jpeg().toBuffer());
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]));
  bytes[frame + 1] = marker;
  bytes[frame + 4] = precision;
  return bytes;
}

/** Sound files of rare sorts, the first bytes of each as its own description has them, and what the person is told. */
const told: readonly (readonly [name: string, make: () => Promise<Buffer> | Buffer, say: RegExp])[] = [
  ['12-bit.jpg', () => jpegWithFrame(0xc1, 12), /JPEG of 12 bits a colour/],
  ['lossless.jpg', () => jpegWithFrame(0xc3, 8), /JPEG without loss/],
  ['layers.jpg', () => jpegWithFrame(0xc5, 8), /JPEG in several layers/],
  ['ls.jpg', () => jpegWithFrame(0xf7, 8), /JPEG-LS/],
  ['half.tif', () => tiff({ bits: 16, data: Buffer.alloc(width * height * 2), more: [[339, 3, 3]] }), /in fractions/],
  ['signed.tif', () => tiff({ bits: 8, data: Buffer.alloc(width * height), more: [[339, 3, 2]] }), /below zero/],
  ['tiles.tif', () => tiff({ bits: 12, data: Buffer.alloc(900), more: [[322, 3, 64]] }), /TIFF of 12 bits a colour/],
  ['packed.tif', () => tiff({ bits: 8, compression: 34661, data: Buffer.alloc(900) }), /packing 34661/],
  [
    'old-jpeg.tif',
    () => tiff({ bits: 8, samples: 3, photometric: 6, compression: 6, data: Buffer.alloc(900) }),
    /JPEG inside in an old way/,
  ],
  ['sensor.tif', () => tiff({ bits: 8, photometric: 32803, data: Buffer.alloc(width * height) }), /RAW/],
  ['camera.dng', () => tiff({ bits: 8, subfile: 1, data: grey, more: [[50706, 1, 0x104]] }), /RAW/],
  ['fax.bmp', () => faxBmp(), /BMP whose dots are packed/],
  ['plan.jp2', () => Buffer.from('\0\0\0\u000cjP  \r\n\u0087\n', 'latin1'), /JPEG 2000/],
  ['plan.jxl', () => Buffer.from([0xff, 0x0a, 0xfa, 0x7f]), /JPEG XL/],
  ['plan.psd', () => Buffer.from('8BPS\0\u0001', 'latin1'), /picture in layers/],
  ['plan.dwg', () => Buffer.from('AC1032\0\0', 'latin1'), /drafting program/],
  [
    'plan.svg',
    () => Buffer.from('<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>'),
    /web pages \(SVG\)/,
  ],
  ['plan.djvu', () => Buffer.from('AT&TFORM\0\0', 'latin1'), /DjVu/],
  ['plans.7z', () => Buffer.from('7z\u00bc\u00af\u0027\u001c\0\u0004', 'latin1'), /packed folder/],
  ['clip.mp4', () => Buffer.from('\0\0\0\u0018ftypisom', 'latin1'), /film/],
];

function faxBmp(): Buffer {
  const bytes = oldBmpOf(rgb, { width, height }, { head: 64, bits: 1 });
  bytes.writeUInt32LE(3, 30);
  return bytes;
}

describe('a sound file of a rare sort', () => {
  it.each(told)('%s is refused by its name and with what to do, and not called damaged', async (name, make, say) => {
    await expect(at.keep(await make(), name)).rejects.toMatchObject({
      code: 'file refused',
      about: name,
      message: expect.stringMatching(say),
      next: expect.stringMatching(/(?:save it as|print it to PDF|[Uu]npack)/),
    });
    await expect(at.keep(await make(), name)).rejects.not.toMatchObject({ message: expect.stringMatching(/damaged/) });
  });
});
