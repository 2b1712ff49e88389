import { deflateSync } from 'node:zlib';
import { RegularWriter } from '../regular/write-file.ts';

/** A picture ready for a page: packed data as it stands in the PDF. */
export interface PagePicture {
  readonly width: number;
  readonly height: number;
  readonly components: 1 | 3;
  /** 8 where left out. */
  readonly bits?: 1 | undefined;
  readonly packing: 'jpeg' | 'png rows';
  readonly data: Buffer;
  readonly profile?: Buffer | undefined;
}

export interface PicturePage {
  readonly width: number;
  readonly height: number;
  readonly matrix: readonly number[];
  readonly picture: PagePicture;
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

function pictureObject(picture: PagePicture, profile: number | undefined): Buffer {
  const device = picture.components === 1 ? '/DeviceGray' : '/DeviceRGB';
  const bits = picture.bits ?? 8;
  const rows = `<< /BitsPerComponent ${bits} /Colors ${picture.components} /Columns ${picture.width} /Predictor 15 >>`;
  const packing: Record<string, string> =
    picture.packing === 'jpeg' ? { Filter: '/DCTDecode' } : { Filter: '/FlateDecode', DecodeParms: rows };
  return stream(
    {
      Type: '/XObject',
      Subtype: '/Image',
      Width: String(picture.width),
      Height: String(picture.height),
      BitsPerComponent: String(bits),
      ColorSpace: profile === undefined ? device : `[ /ICCBased ${profile} 0 R ]`,
      ...packing,
    },
    picture.data,
  );
}

function profileObject({ components, profile }: PagePicture): Buffer | undefined {
  if (profile === undefined) return undefined;
  const alternate = components === 1 ? '/DeviceGray' : '/DeviceRGB';
  const dict = { N: String(components), Alternate: alternate, Filter: '/FlateDecode' };
  return stream(dict, deflateSync(profile));
}

/** Objects that each page takes: itself, its content, its picture; and its profile, where the file carries any. */
const perPage = { plain: 3, profiled: 4 };

/** Writes a file of pages that show one picture each, in the regular dialect (see normalise.ts), page by page. */
export class PictureFile {
  readonly #writer: RegularWriter;
  readonly #profiled: boolean;

  /** @param profiled the pictures carry colour profiles */
  constructor(path: string, count: number, profiled: boolean) {
    this.#writer = new RegularWriter(path);
    this.#profiled = profiled;
    const step = profiled ? perPage.profiled : perPage.plain;
    this.#writer.add('<< /Pages 2 0 R /Type /Catalog >>');
    const kids = Array.from({ length: count }, (_, index) => `${3 + index * step} 0 R`);
    this.#writer.add(`<< /Count ${count} /Kids [ ${kids.join(' ')} ] /Type /Pages >>`);
  }

  add({ width, height, matrix, picture }: PicturePage): void {
    const own = this.#writer.next;
    const profile = this.#profiled ? profileObject(picture) : undefined;
    const box = `[ 0 0 ${number(width)} ${number(height)} ]`;
    const resources = `<< /XObject << /Im0 ${own + 2} 0 R >> >>`;
    this.#writer.add(
      `<< /Contents ${own + 1} 0 R /MediaBox ${box} /Parent 2 0 R /Resources ${resources} /Type /Page >>`,
    );
    this.#writer.add(stream({}, Buffer.from(`q\n${matrix.map(number).join(' ')} cm\n/Im0 Do\nQ\n`)));
    this.#writer.add(pictureObject(picture, profile === undefined ? undefined : own + 3));
    if (this.#profiled) this.#writer.add(profile ?? 'null');
  }

  /** @param id 32 hex digits; the same pictures give the same file */
  finish(id: string): void {
    this.#writer.finish(1, id);
  }

  close(): void {
    this.#writer.close();
  }
}
