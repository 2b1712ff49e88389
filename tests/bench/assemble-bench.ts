import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { openDesk } from '../../core/desk/desk.ts';
import { makeBenchSources } from './packet-bench.ts';

/** Milliseconds of a native program, or undefined where it is not installed; the middle of three. */
export function peerTime(command: string, args: readonly string[]): number | undefined {
  const times: number[] = [];
  for (let run = 0; run < 3; run += 1) {
    const begun = performance.now();
    const ended = spawnSync(command, args);
    if (ended.error !== undefined) return undefined;
    times.push(performance.now() - begun);
  }
  return times.toSorted((a, b) => a - b)[1];
}

export interface AssembleRow {
  readonly pages: number;
  readonly megabytes: number;
  readonly firstMs: number;
  readonly againMs: number;
  /** After one packet, and after five in one process. */
  readonly firstPeakMb: number;
  readonly peakMb: number;
  readonly keepPagesPerSecond: number;
  readonly qpdfMs: number | undefined;
  readonly pdfuniteMs: number | undefined;
}

async function keepAll(folder: string, files: readonly string[]): Promise<number> {
  await using desk = openDesk({ program: 'bench', today: () => '2026-04-14' });
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Bench' });
  const papers = files.map((file, n) => ({ files: [desk.tickets.offer(file)], title: `Paper ${n + 1}` }));
  const begun = performance.now();
  const { refused } = await desk.ask('keep', { papers }, { lot });
  if (refused.length > 0) throw new Error(`not kept: ${refused[0]?.file}: ${refused[0]?.error.message}`);
  return performance.now() - begun;
}

function childRun(folder: string): { times: readonly number[]; pages: number; firstPeakMb: number; peakMb: number } {
  const child = spawnSync(
    process.execPath,
    ['--max-semi-space-size=16', join(import.meta.dirname, 'assemble-child.ts'), folder],
    {
      encoding: 'utf8',
    },
  );
  if (child.status !== 0) throw new Error(child.stderr);
  return JSON.parse(child.stdout);
}

/** Assembling a kept lot of about `pages` pages, everything included, against bare merges of the same originals. */
export async function benchAssemble(root: string, pages: number): Promise<AssembleRow> {
  const sources = join(root, `sources-${pages}`);
  mkdirSync(sources, { recursive: true });
  const made = await makeBenchSources(sources, pages);
  const lot = join(root, `lot-${pages}`);
  rmSync(lot, { recursive: true, force: true });
  const keepMs = await keepAll(lot, made.files);
  const files = readdirSync(sources).map((name) => join(sources, name));
  const out = join(root, 'peer.pdf');
  // What keeping wrote is still on its way to the disk, and only we force our file there: that is not assembling.
  spawnSync('sync');
  const merge = ['--empty', '--pages', ...files, '--', out];
  const before = peerTime('qpdf', merge);
  const child = childRun(lot);
  const after = peerTime('qpdf', merge);
  const qpdfMs = before === undefined || after === undefined ? undefined : (before + after) / 2;
  const pdfuniteMs = peerTime('pdfunite', [...files, out]);
  const [firstMs = 0, ...again] = child.times;
  return {
    pages: made.pages,
    megabytes: made.bytes / 1e6,
    firstMs,
    againMs: again.toSorted((a, b) => a - b)[again.length >> 1] ?? 0,
    firstPeakMb: child.firstPeakMb,
    peakMb: child.peakMb,
    keepPagesPerSecond: made.pages / (keepMs / 1000),
    qpdfMs,
    pdfuniteMs,
  };
}
