import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import createQpdf from '@neslinesli93/qpdf-wasm';
import { normalise } from '../../core/intake/normalise.ts';
import { linkPacket } from '../../core/packet/link/index.ts';
import type { LinkOrder, LinkPage, LinkResult, LinkSource } from '../../core/packet/link-order.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import { drawSheets } from '../../core/packet/sheets/draw-sheets.ts';
import { loadFonts } from '../../core/packet/sheets/fonts.ts';

/** A folder of its own, gone at the end of the test. */
export function workFolder(): { readonly path: (name: string) => string; readonly root: string } & Disposable {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-link-'));
  return {
    root,
    path: (name) => join(root, name),
    [Symbol.dispose]: () => rmSync(root, { recursive: true, force: true }),
  };
}

export function sha256Of(path: string): string {
  return createHash('sha256').update(readFileSync(path)).digest('hex');
}

export type RawObject = string | { readonly dict: string; readonly bytes: string };

/** A PDF from handwritten objects (1, 2, 3 ...; object 1 is the catalog), one character per byte. */
export function rawPdf(objects: readonly RawObject[]): Buffer {
  let text = '%PDF-1.7\n%\xe2\xe3\xcf\xd3\n';
  const offsets: number[] = [];
  for (const [index, object] of objects.entries()) {
    offsets.push(text.length);
    const body =
      typeof object === 'string'
        ? object
        : `<< ${object.dict} /Length ${object.bytes.length} >>\nstream\n${object.bytes}\nendstream`;
    text += `${index + 1} 0 obj\n${body}\nendobj\n`;
  }
  const at = text.length;
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n`;
  for (const offset of offsets) text += `${String(offset).padStart(10, '0')} 00000 n \n`;
  text += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${at}\n%%EOF\n`;
  return Buffer.from(text, 'latin1');
}

/** Writes a file as it is and lists it as a source. */
export function asSource(path: string, bytes: Uint8Array, title = 'Plans'): LinkSource {
  writeFileSync(path, bytes);
  return { id: title, path, sha256: sha256Of(path), title };
}

/** Rewrites a file the way keeping does, then lists it as a source. */
export async function keptSource(path: string, bytes: Uint8Array, title = 'Plans'): Promise<LinkSource> {
  writeFileSync(`${path}.original`, bytes);
  if (!(await normalise(`${path}.original`, path))) throw new Error(`${title} could not be normalised`);
  return { id: title, path, sha256: sha256Of(path), title };
}

export function pageOf(source: LinkSource, page: number, more: Partial<LinkPage> = {}): LinkPage {
  return { source: source.id, page, turn: 0, openSaves: 0, extraRestores: 0, links: [], ...more };
}

export function orderOf(
  sources: readonly LinkSource[],
  pages: readonly LinkPage[],
  more: Partial<LinkOrder> = {},
): LinkOrder {
  const rest = { title: 'Permit packet', subject: 'PERMIT-APPLY', language: 'en-US', bookmarks: [], labels: [] };
  return { ...rest, sources, pages, ...more };
}

/** Links and reads back: whatever a test looks at has been proved by the program itself as well. */
export async function linkProved(order: LinkOrder, path: string): Promise<LinkResult> {
  const result = await linkPacket(order, path);
  await readBack(order, path, result);
  return result;
}

/** One written sheet, whose text face is the one stamps are set in. */
export async function writtenSource(path: string, words: readonly string[] = ['Cover sheet']) {
  const fonts = await loadFonts();
  const drawings = words.map((text) => ({
    width: 612,
    height: 792,
    links: [],
    ops: [{ op: 'text', x: 72, y: 700, face: 'text', size: 14, tone: 'ink', text } as const],
  }));
  const drawn = await drawSheets(drawings, fonts);
  const source = asSource(path, drawn.bytes, 'written sheets');
  return { source, stampFace: { ...drawn.stampFace, source: source.id } };
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** RGBA. */
  readonly data: Uint8Array;
}

let library: Promise<PDFiumLibrary> | undefined;

/** Pages of a file (all, or those named) as pictures, by PDFium, annotations and form fields drawn. */
export async function picturesOf(
  bytes: Uint8Array,
  scale = 0.5,
  only?: readonly number[],
  password?: string,
): Promise<readonly Picture[]> {
  library ??= PDFiumLibrary.init();
  const document = await (await library).loadDocument(bytes, password);
  try {
    const pictures: Picture[] = [];
    const wanted = only ?? Array.from({ length: document.getPageCount() }, (_, page) => page);
    for (const number of wanted) {
      const page = document.getPage(number);
      const { width, height, data } = await page.render({ scale, render: 'bitmap', renderFormFields: true });
      pictures.push({ width, height, data: new Uint8Array(data) });
    }
    return pictures;
  } finally {
    document.destroy();
  }
}

/** How many pixels differ visibly, outside a box given in pixels from the top left. */
export function differences(
  a: Picture,
  b: Picture,
  except?: { x0: number; y0: number; x1: number; y1: number },
): number {
  if (a.width !== b.width || a.height !== b.height) return Number.POSITIVE_INFINITY;
  let count = 0;
  for (let i = 0; i < a.data.length; i += 4) {
    const pixel = i / 4;
    const x = pixel % a.width;
    const y = Math.floor(pixel / a.width);
    if (except !== undefined && x >= except.x0 && x < except.x1 && y >= except.y0 && y < except.y1) continue;
    for (let c = 0; c < 3; c += 1) {
      if (Math.abs((a.data[i + c] ?? 0) - (b.data[i + c] ?? 0)) > 8) {
        count += 1;
        break;
      }
    }
  }
  return count;
}

interface Qpdf {
  callMain(args: readonly string[]): number;
  readonly NODEFS: object;
  readonly FS: { mkdir(path: string): void; mount(kind: object, options: { root: string }, at: string): void };
}

function isQpdf(value: unknown): value is Qpdf {
  return typeof value === 'object' && value !== null && 'callMain' in value && 'FS' in value && 'NODEFS' in value;
}

/** Exit code of qpdf's own check, which decodes every stream: 0 without complaint, 2 errors, 3 warnings. */
export async function qpdfCheck(path: string): Promise<number> {
  const wasm = fileURLToPath(import.meta.resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm'));
  const program: unknown = await createQpdf({ locateFile: () => wasm });
  if (!isQpdf(program)) throw new Error('qpdf has another shape than expected');
  program.FS.mkdir('/in');
  program.FS.mount(program.NODEFS, { root: dirname(path) }, '/in');
  const before = process.exitCode;
  try {
    return program.callMain(['--check', `/in/${basename(path)}`]);
  } catch {
    return 2;
  } finally {
    process.exitCode = before;
  }
}
