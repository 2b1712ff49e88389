import { closeSync, openSync, writeSync } from 'node:fs';
import { deflateSync } from 'node:zlib';

/** A picture ready for a page: packed data as it stands in the PDF. */
export interface PagePicture {
  readonly width: number;
  readonly height: number;
  readonly components: 1 | 3;
  readonly packing: 'jpeg' | 'png rows';
  readonly data: Buffer;
  readonly profile?: Buffer | undefined;
}

export interface PicturePage {
  readonly width: number;
  readonly height: number;
  readonly matrix: readonly number[];
  readonly picture: PagePicture;
  /** 32 hex digits; the same picture gives the same file. */
  readonly id: string;
}

/** Shortest decimal with at most five places, as PDF numbers are written (no exponents). */
function number(value: number): string {
  return String(Number(value.toFixed(5)));
}

function stream(dict: Readonly<Record<string, string>>, data: Buffer): Buffer {
  const all: Readonly<Record<string, string>> = { ...dict, Length: String(data.length) };
  const words = Object.keys(all)
    .toSorted((a, b) => (a < b ? -1 : 1))
    .map((key) => `/${key} ${all[key]}`);
  return Buffer.concat([Buffer.from(`<< ${words.join(' ')} >>\nstream\n`), data, Buffer.from('\nendstream')]);
}

function pictureObject(picture: PagePicture): Buffer {
  const device = picture.components === 1 ? '/DeviceGray' : '/DeviceRGB';
  const rows = `<< /BitsPerComponent 8 /Colors ${picture.components} /Columns ${picture.width} /Predictor 15 >>`;
  const packing: Record<string, string> =
    picture.packing === 'jpeg' ? { Filter: '/DCTDecode' } : { Filter: '/FlateDecode', DecodeParms: rows };
  return stream(
    {
      Type: '/XObject',
      Subtype: '/Image',
      Width: String(picture.width),
      Height: String(picture.height),
      BitsPerComponent: '8',
      ColorSpace: picture.profile === undefined ? device : '[ /ICCBased 6 0 R ]',
      ...packing,
    },
    picture.data,
  );
}

function objectsOf(page: PicturePage): readonly Buffer[] {
  const { picture } = page;
  const content = Buffer.from(`q\n${page.matrix.map(number).join(' ')} cm\n/Im0 Do\nQ\n`);
  const alternate = picture.components === 1 ? '/DeviceGray' : '/DeviceRGB';
  const profile =
    picture.profile === undefined
      ? []
      : [
          stream(
            { N: String(picture.components), Alternate: alternate, Filter: '/FlateDecode' },
            deflateSync(picture.profile),
          ),
        ];
  const box = `[ 0 0 ${number(page.width)} ${number(page.height)} ]`;
  return [
    Buffer.from('<< /Pages 2 0 R /Type /Catalog >>'),
    Buffer.from('<< /Count 1 /Kids [ 3 0 R ] /Type /Pages >>'),
    Buffer.from(
      `<< /Contents 4 0 R /MediaBox ${box} /Parent 2 0 R /Resources << /XObject << /Im0 5 0 R >> >> /Type /Page >>`,
    ),
    stream({}, content),
    pictureObject(picture),
    ...profile,
  ];
}

/** Writes a file of one page that shows one picture, in the regular dialect (see normalise.ts). */
export function writePicturePage(page: PicturePage, path: string): void {
  const fd = openSync(path, 'w');
  try {
    let at = writeSync(fd, Buffer.from('%PDF-1.7\n%\u00bf\u00f7\u00a2\u00fe\n', 'latin1'));
    const offsets: number[] = [];
    for (const [index, object] of objectsOf(page).entries()) {
      offsets.push(at);
      at += writeSync(fd, Buffer.from(`${index + 1} 0 obj\n`));
      for (let done = 0; done < object.length; ) done += writeSync(fd, object, done);
      at += object.length + writeSync(fd, Buffer.from('\nendobj\n'));
    }
    const rows = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
    const size = offsets.length + 1;
    const trailer = `trailer << /Root 1 0 R /Size ${size} /ID [<${page.id}><${page.id}>] >>`;
    writeSync(fd, `xref\n0 ${size}\n0000000000 65535 f \n${rows}${trailer}\nstartxref\n${at}\n%%EOF\n`);
  } finally {
    closeSync(fd);
  }
}
