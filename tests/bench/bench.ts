import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type AssembleRow, benchAssemble } from './assemble-bench.ts';
import { benchDesk } from './desk-bench.ts';
import { benchIntake } from './intake-bench.ts';
import { benchReadiness } from './readiness-bench.ts';
import { benchStore } from './store-bench.ts';

/** `npm run bench`: one table; every ratio is measured side by side in this run. */
const root = mkdtempSync(join(tmpdir(), 'lotfile-bench-'));
const rows: string[][] = [];
const row = (...cells: string[]): void => {
  rows.push(cells);
  process.stdout.write(`${cells.join('  |  ')}\n`);
};

function oneDecimal(value: unknown): string {
  return typeof value === 'number' ? String(Math.round(value * 10) / 10) : String(value);
}

function ratio(ours: number, peer: number | undefined): string {
  return peer === undefined ? 'peer not installed' : `${(ours / peer).toFixed(2)}x`;
}

function assembleRows(made: AssembleRow): void {
  const { pages, megabytes, firstMs, againMs, firstPeakMb, peakMb } = made;
  row(
    `assembling ${pages} pages, ${megabytes.toFixed(0)} MB`,
    `first in a fresh process ${firstMs.toFixed(0)} ms, again ${againMs.toFixed(0)} ms`,
    `peak ${firstPeakMb.toFixed(0)} MB (${peakMb.toFixed(0)} MB after five)`,
  );
  for (const { name, ms, first, again } of made.peers) {
    row(`  against ${name}`, `${ms.toFixed(0)} ms`, `first ${first.toFixed(2)}x, again ${again.toFixed(2)}x`);
  }
  if (made.peers.length === 0) row('  no peer is installed here (qpdf, mutool, pdfunite)');
  row('  keeping them', `${made.keepPagesPerSecond.toFixed(1)} pages/s`);
}

/** A whole run of the terminal, from the shell's view; the middle of five. */
function terminalStart(): number {
  const times = Array.from({ length: 6 }, () => {
    const begun = performance.now();
    spawnSync(process.execPath, ['core/cli/lotfile.ts', '--help']);
    return performance.now() - begun;
  });
  return times.slice(1).toSorted((a, b) => a - b)[2] ?? 0;
}

function bareStart(): number {
  const times = Array.from({ length: 5 }, () => {
    const begun = performance.now();
    spawnSync(process.execPath, ['-e', '0']);
    return performance.now() - begun;
  });
  return times.toSorted((a, b) => a - b)[2] ?? 0;
}

try {
  for (const pages of [50, 250, 1000, 2500]) assembleRows(await benchAssemble(root, pages));
  const start = terminalStart();
  row('terminal start', `${start.toFixed(0)} ms`, `${ratio(start, bareStart())} of an empty Node`);
  for (const [name, value] of Object.entries(await benchReadiness())) row(`readiness: ${name}`, oneDecimal(value));
  for (const [name, value] of Object.entries(await benchStore())) row(`store: ${name}`, oneDecimal(value));
  for (const { asked, afterChangeMs, againMs, bytes } of await benchDesk(root)) {
    row(
      `desk, 400 papers, 3,000 photos: ${asked}`,
      `after a change ${oneDecimal(afterChangeMs)} ms, again ${oneDecimal(againMs)} ms`,
      `${Math.round(bytes / 1000)} KB`,
    );
  }
  for (const one of await benchIntake()) {
    const { rewrite, readOnce } = one.stages;
    row(
      `keeping: ${one.what}`,
      `${oneDecimal(one.pagesPerSecond)} pages/s`,
      `rewriting ${oneDecimal(rewrite)} ms, one reading ${oneDecimal(readOnce)} ms of ${oneDecimal(one.milliseconds)} ms`,
    );
  }
} finally {
  rmSync(root, { recursive: true, force: true });
}
