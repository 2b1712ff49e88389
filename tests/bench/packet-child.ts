import { readFileSync, rmSync } from 'node:fs';
import { linkPacket } from '../../core/packet/link/index.ts';
import type { LinkOrder } from '../../core/packet/link-order.ts';
import { readBack, warmReadBack } from '../../core/packet/read-back/index.ts';

/**
 * Run as a process of its own, so that its peak memory is linking's alone: links all pages of the sources listed in
 * a JSON file (what a lot knows of its renditions), reads the result back, four times; prints milliseconds and peak.
 */
const [output = '', list = ''] = process.argv.slice(2);
interface Known {
  readonly path: string;
  readonly sha256: string;
  readonly pages: number;
}
const known: readonly Known[] = JSON.parse(readFileSync(list, 'utf8'));
const facts = known.map(({ path, sha256, pages }) => ({ id: path, path, title: path, sha256, pages }));
const pages = facts.flatMap(({ id, pages: count }) =>
  Array.from({ length: count }, (_, page) => ({
    source: id,
    page,
    turn: 0 as const,
    openSaves: 0,
    extraRestores: 0,
    links: [],
  })),
);
const order: LinkOrder = {
  title: 'Bench',
  subject: '',
  language: 'en-US',
  sources: facts,
  pages,
  bookmarks: pages.flatMap(({ page, source }, sheet) => (page === 0 ? [{ title: source, sheet, children: [] }] : [])),
  labels: [{ sheet: 0, style: 'decimal', prefix: '', start: 1 }],
};
/** The first run pays for starting the reader, the threads and the compiler; a desk that has run before doesn't. */
const runs: { readonly linkMs: number; readonly readBackMs: number }[] = [];
warmReadBack();
for (let run = 0; run < 4; run += 1) {
  const begun = performance.now();
  const linked = await linkPacket(order, output);
  const between = performance.now();
  await readBack(order, output, linked);
  runs.push({ linkMs: between - begun, readBackMs: performance.now() - between });
  rmSync(output);
}
process.stdout.write(JSON.stringify({ runs, peakMb: process.resourceUsage().maxRSS / 1024 }));
