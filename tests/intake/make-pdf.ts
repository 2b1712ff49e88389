import createQpdf from '@neslinesli93/qpdf-wasm';

/** Objects by number; object 1 is the catalog. A Buffer stands as it is, between `N 0 obj` and `endobj`. */
export type Objects = Readonly<Record<number, string | Buffer>>;

export function streamObject(data: string | Buffer, dict = ''): Buffer {
  const bytes = Buffer.isBuffer(data) ? data : Buffer.from(data, 'latin1');
  return Buffer.concat([
    Buffer.from(`<< ${dict} /Length ${bytes.length} >>\nstream\n`),
    bytes,
    Buffer.from('\nendstream'),
  ]);
}

/** A classic PDF written byte by byte, so that a test can say exactly what stands in it. */
export function pdfOf(objects: Objects, trailer = ''): Buffer {
  const parts: Buffer[] = [Buffer.from('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n', 'latin1')];
  const rows: string[] = [];
  let at = parts[0]?.length ?? 0;
  const numbers = Object.keys(objects).map(Number);
  const last = Math.max(...numbers);
  for (let number = 1; number <= last; number += 1) {
    const body = objects[number];
    if (body === undefined) {
      rows.push('0000000000 65535 f \n');
      continue;
    }
    const part = Buffer.concat([
      Buffer.from(`${number} 0 obj\n`),
      Buffer.isBuffer(body) ? body : Buffer.from(body, 'latin1'),
      Buffer.from('\nendobj\n'),
    ]);
    rows.push(`${String(at).padStart(10, '0')} 00000 n \n`);
    parts.push(part);
    at += part.length;
  }
  parts.push(
    Buffer.from(
      `xref\n0 ${last + 1}\n0000000000 65535 f \n${rows.join('')}trailer\n<< /Root 1 0 R /Size ${last + 1} ${trailer} >>\nstartxref\n${at}\n%%EOF\n`,
    ),
  );
  return Buffer.concat(parts);
}

export interface OnePage {
  /** Keys of the page dictionary besides Type, Parent, Contents, Resources. */
  readonly page?: string;
  readonly content?: string | Buffer;
  readonly contentDict?: string;
  readonly catalog?: string;
  readonly resources?: string;
  /** More objects, from 6 on. */
  readonly more?: Objects;
}

/** One page with Helvetica as /F1. Objects: 1 catalog, 2 pages, 3 page, 4 content, 5 font. */
export function onePage(given: OnePage = {}): Buffer {
  const { page = '/MediaBox [ 0 0 612 792 ]', content = words(), contentDict = '', catalog = '' } = given;
  return pdfOf({
    1: `<< /Type /Catalog /Pages 2 0 R ${catalog} >>`,
    2: '<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>',
    3: `<< /Type /Page /Parent 2 0 R /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> ${given.resources ?? ''} >> ${page} >>`,
    4: streamObject(content, contentDict),
    5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    ...given.more,
  });
}

/** A line of text, in page units. */
export function words(text = 'Septic permit 4711', x = 100, y = 400): string {
  return `BT /F1 18 Tf ${x} ${y} Td (${text}) Tj ET\n`;
}

interface FileSystem {
  writeFile(path: string, data: Uint8Array): void;
  readFile(path: string): Uint8Array;
}

function isFileSystem(value: object): value is FileSystem {
  return 'writeFile' in value && 'readFile' in value;
}

/** Runs qpdf over a file (encrypting it, packing it into object streams ...). Reference: the qpdf manual, 12.2. */
export async function throughQpdf(bytes: Uint8Array, args: readonly string[]): Promise<Buffer> {
  const program = await createQpdf({ locateFile: () => new URL(import.meta.resolve(wasm)).pathname });
  const files: object = program.FS;
  if (!isFileSystem(files)) throw new Error('qpdf has no file system');
  files.writeFile('/in.pdf', bytes);
  const code = program.callMain([...args, '/in.pdf', '/out.pdf']);
  if (code !== 0) throw new Error(`qpdf ended with ${code}`);
  return Buffer.from(files.readFile('/out.pdf'));
}

const wasm = '@neslinesli93/qpdf-wasm/dist/qpdf.wasm';
