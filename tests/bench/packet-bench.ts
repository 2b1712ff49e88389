import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fontkit from '@cantoo/fontkit';
import { PDFDocument, type PDFFont } from 'pdf-lib';
import sharp from 'sharp';
import { loadFonts } from '../../core/packet/sheets/fonts.ts';

export interface BenchSources {
  readonly files: readonly string[];
  readonly pagesOf: readonly number[];
  readonly pages: number;
  readonly bytes: number;
}

/** The same stream of numbers every time (a linear congruential generator, Numerical Recipes' constants). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Grey scans of about 100 KB to 1 MB, as a scanner app makes them. */
async function scans(): Promise<readonly Uint8Array[]> {
  const next = numbers(7);
  const made: Uint8Array[] = [];
  for (const width of [500, 650, 800, 1000, 1250, 1500]) {
    const height = Math.round(width * 1.294);
    const raw = Buffer.alloc(width * height);
    for (let i = 0; i < raw.length; i += 1) raw[i] = 180 + next() * 75;
    made.push(
      await sharp(raw, { raw: { width, height, channels: 1 } })
        .jpeg({ quality: 70 })
        .toBuffer(),
    );
  }
  return made;
}

interface Paper {
  readonly document: PDFDocument;
  readonly font: PDFFont;
  readonly next: () => number;
}

function drawingPage({ document, font, next }: Paper, number: number): void {
  const page = document.addPage([612, 792]);
  page.drawText(`Sheet A-${number}`, { x: 420, y: 40, size: 18, font });
  for (let line = 0; line < 300; line += 1) {
    const start = { x: 40 + next() * 530, y: 80 + next() * 660 };
    page.drawLine({ start, end: { x: 40 + next() * 530, y: 80 + next() * 660 }, thickness: 0.3 });
  }
  for (let line = 0; line < 40; line += 1) {
    page.drawText(`Note ${line}: anchor bolts at ${Math.round(next() * 72)} in. o.c.`, {
      x: 50,
      y: 740 - line * 16,
      size: 9,
      font,
    });
  }
}

async function writePaper(
  path: string,
  pages: number,
  how: { seed: number; pictures: readonly Uint8Array[] },
): Promise<void> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(fontkit);
  const fonts = await loadFonts();
  const font = await document.embedFont(fonts.bytesOf('text'), { subset: true });
  const next = numbers(how.seed);
  const scanned = how.seed % 3 !== 0;
  for (let number = 1; number <= pages; number += 1) {
    const picture = how.pictures[Math.floor(next() * how.pictures.length)];
    if (!scanned || picture === undefined) drawingPage({ document, font, next }, number);
    else
      document.addPage([612, 792]).drawImage(await document.embedJpg(picture), { x: 0, y: 0, width: 612, height: 792 });
  }
  writeFileSync(path, await document.save({ useObjectStreams: false, objectsPerTick: Number.POSITIVE_INFINITY }));
}

/** Papers like a lot's: two thirds scans, one third drawings and text, 5 to 20 pages each. Only they are in `folder`. */
export async function makeBenchSources(folder: string, pages: number): Promise<BenchSources> {
  mkdirSync(folder, { recursive: true });
  const pictures = await scans();
  const files: string[] = [];
  const pagesOf: number[] = [];
  let made = 0;
  for (let seed = 1; made < pages; seed += 1) {
    const here = Math.min(5 + ((seed * 7) % 16), pages - made);
    const path = join(folder, `paper-${String(seed).padStart(3, '0')}.pdf`);
    await writePaper(path, here, { seed, pictures });
    files.push(path);
    pagesOf.push(here);
    made += here;
  }
  return { files, pagesOf, pages: made, bytes: files.reduce((sum, file) => sum + statSync(file).size, 0) };
}

export interface PacketRow {
  readonly pages: number;
  readonly megabytes: number;
  /** Linking and reading back, the first time in a fresh process (without the start of the process). */
  readonly firstMs: number;
  /** The same again in that process, as in a desk that has been open for a while. */
  readonly againMs: number;
  readonly peakMb: number;
  /** Our times over theirs, or why there is none. */
  readonly ratios: Readonly<Record<string, { readonly first: number; readonly again: number } | string>>;
}

/** The middle of three runs in milliseconds, start of the process included; undefined where it isn't installed. */
function timed(command: string, args: readonly string[]): number | undefined {
  const runs: number[] = [];
  for (let run = 0; run < 3; run += 1) {
    const begun = performance.now();
    const ended = spawnSync(command, args, { encoding: 'utf8' });
    if (ended.error !== undefined) return undefined;
    if (ended.status !== 0) throw new Error(`${command}: ${ended.stderr}`);
    runs.push(performance.now() - begun);
  }
  return runs.toSorted((a, b) => a - b)[1];
}

/** What a lot already knows when it assembles: hashes and page counts. */
export function known(sources: BenchSources): readonly { path: string; sha256: string; pages: number }[] {
  return sources.files.map((path, index) => ({
    path,
    sha256: createHash('sha256').update(readFileSync(path)).digest('hex'),
    pages: sources.pagesOf[index] ?? 0,
  }));
}

function row(sources: BenchSources, root: string): PacketRow {
  const out = join(root, 'out.pdf');
  const list = join(root, 'known.json');
  writeFileSync(list, JSON.stringify(known(sources)));
  const ours = spawnSync(process.execPath, [join(import.meta.dirname, 'packet-child.ts'), out, list], {
    encoding: 'utf8',
  });
  if (ours.status !== 0) throw new Error(ours.stderr);
  const { runs, peakMb }: { runs: { linkMs: number; readBackMs: number }[]; peakMb: number } = JSON.parse(ours.stdout);
  const [firstMs = 0, ...later] = runs.map(({ linkMs, readBackMs }) => linkMs + readBackMs);
  const againMs = later.toSorted((a, b) => a - b)[1] ?? firstMs;
  const peers: readonly (readonly [string, readonly string[]])[] = [
    ['qpdf', ['--empty', '--pages', ...sources.files, '--', out]],
    ['pdfunite', [...sources.files, out]],
    ['mutool', ['merge', '-o', out, ...sources.files]],
  ];
  const ratios: Record<string, { first: number; again: number } | string> = {};
  for (const [name, args] of peers) {
    const ms = timed(name, args);
    ratios[name] =
      ms === undefined
        ? `${name} is not installed here, so there is no comparison`
        : { first: firstMs / ms, again: againMs / ms };
  }
  return { pages: sources.pages, megabytes: sources.bytes / 1e6, firstMs, againMs, peakMb, ratios };
}

/** Linking and reading back against bare merges by native programs in the same minute. */
export async function benchPacket(sizes: readonly number[] = [250, 1000]): Promise<readonly PacketRow[]> {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-packet-bench-'));
  try {
    const rows: PacketRow[] = [];
    for (const pages of sizes) {
      const folder = join(root, `sources-${pages}`);
      rows.push(row(await makeBenchSources(folder, pages), root));
      rmSync(folder, { recursive: true });
    }
    return rows;
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

if (process.argv[1] === import.meta.filename) {
  process.stdout.write(`${JSON.stringify(await benchPacket(), undefined, 2)}\n`);
}
