/**
 * Rewriting a PDF into the regular dialect that linking reads. What the program (qpdf 12.2 as WebAssembly) writes
 * with these settings, and what the reader next door relies on:
 *
 * - `%PDF-1.x` (or 2.0, as the source), a comment of four high bytes, then the objects 1..n without gaps, each `N 0 obj\n...\nendobj\n`;
 *   generation 0 throughout; one classic `xref\n0 n+1\n` section of 20-byte rows; `trailer << ... >>` on one line.
 * - A stream is `<< ... /Length 123 >>\nstream\n` + exactly 123 bytes + `\nendstream\nendobj`: the length is direct.
 * - Every dictionary stands on one line with single spaces; names and strings are written in their shortest form
 *   (`#xx` escapes and hex strings occur). Keys are sorted.
 * - No encryption, no object streams, no linearisation, no /Prev, no incremental updates. The trailer has /Root,
 *   /Size, /ID, and /Info where the source had one.
 * - What is NOT changed: the page tree keeps its shape, so Resources, MediaBox, CropBox and Rotate may still be
 *   inherited, and /Contents may be one stream, an array, or an indirect array; stream data and filters are as in the
 *   source (any filter may occur, JBIG2 and Crypt /Identity included). Unreferenced objects are dropped. A page may
 *   stand twice in the tree. Null values and references to absent objects are left out or written `null`.
 * - Known loss: where a hybrid file (ISO 32000-1, 7.5.8.4) marks an object free in its classic table and holds it in
 *   the second one, this build takes it for free. Older readers are meant to show such a file whole, so that what is lost are reading aids.
 */
import { rmSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import createQpdf from '@neslinesli93/qpdf-wasm';

const settings = [
  '--object-streams=disable',
  '--stream-data=preserve',
  '--decrypt',
  '--deterministic-id',
  '--newline-before-endstream',
] as const;

/** Exit codes of the program: 0 clean, 3 written with warnings. */
const usable = new Set([0, 3]);

/** The parts of the program's runtime that we use; its own types leave out the folder of the real disk. */
interface Qpdf {
  callMain(args: readonly string[]): number;
  readonly NODEFS: object;
  readonly FS: { mkdir(path: string): void; mount(kind: object, options: { root: string }, at: string): void };
}

function isQpdf(value: unknown): value is Qpdf {
  return typeof value === 'object' && value !== null && 'callMain' in value && 'FS' in value && 'NODEFS' in value;
}

async function startQpdf(): Promise<Qpdf> {
  const wasm = fileURLToPath(import.meta.resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm'));
  const program: unknown = await createQpdf({ locateFile: () => wasm });
  if (!isQpdf(program)) throw new Error('The PDF rewriter has another shape than expected.');
  return program;
}

function run(program: Qpdf, args: readonly string[]): number {
  const before = process.exitCode;
  try {
    return program.callMain(args);
  } catch {
    return 2;
  } finally {
    process.exitCode = before;
  }
}

/**
 * Rewrites `input` into the regular dialect at `output`. Both are read and written on the disk, so that the memory
 * taken doesn't grow with the streams. This build stops at the first damage it meets (the caller has other ways).
 * @returns false where it refused; then nothing stands at `output`.
 */
export async function normalise(input: string, output: string, password = ''): Promise<boolean> {
  const program = await startQpdf();
  program.FS.mkdir('/from');
  program.FS.mkdir('/to');
  program.FS.mount(program.NODEFS, { root: dirname(input) }, '/from');
  program.FS.mount(program.NODEFS, { root: dirname(output) }, '/to');
  const key = password === '' ? [] : [`--password=${password}`];
  const code = run(program, [...settings, ...key, `/from/${basename(input)}`, `/to/${basename(output)}`]);
  const written = statSync(output, { throwIfNoEntry: false });
  if (usable.has(code) && written !== undefined && written.size > 0) return true;
  rmSync(output, { force: true });
  return false;
}
