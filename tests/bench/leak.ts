import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { openDesk } from '../../core/desk/desk.ts';

/**
 * `npm run leak -- 1000`: assembles one packet so many times in one process and says what memory it holds, garbage
 * collected, every tenth of the way; ends in 1 where it grew by more than a packet's own rows explain.
 */
const times = Number(process.argv[2] ?? 1000);
const collect = globalThis.gc;
if (collect === undefined || !Number.isInteger(times) || times < 10) {
  process.stderr.write('Run it by name: npm run leak -- 1000\n');
  process.exit(2);
}

/** Kilobytes one assembly may leave: its rows in caches, two tickets. */
const mayLeave = 12;
/** What a warm engine may still rearrange, kilobytes. */
const noise = 2500;

function heldKb(): number {
  for (let n = 0; n < 3; n += 1) collect?.();
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  return (heapUsed + external + arrayBuffers) / 1024;
}

async function pdfAt(path: string): Promise<string> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.Helvetica);
  for (let n = 1; n <= 5; n += 1)
    document.addPage([612, 792]).drawText(`Sheet ${n}`, { x: 72, y: 700, size: 14, font });
  writeFileSync(path, await document.save());
  return path;
}

const root = mkdtempSync(join(tmpdir(), 'lotfile-leak-'));
try {
  await using desk = openDesk({ program: 'leak', today: () => '2026-04-14' });
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(join(root, 'lot')), title: 'Heron Lane' });
  const files = [desk.tickets.offer(await pdfAt(join(root, 'deed.pdf')))];
  await desk.ask('keep', { papers: [{ files, kind: 'deed' }] }, { lot });
  const assemble = () => desk.ask('assemble', { papers: ['deed'], title: 'For the bank' }, { lot });
  const warm = Math.max(10, Math.floor(times / 10));
  for (let n = 0; n < warm; n += 1) await assemble();
  const before = heldKb();
  process.stdout.write(`after ${warm} to warm up: ${(before / 1024).toFixed(1)} MB\n`);
  for (let n = 1; n <= times; n += 1) {
    await assemble();
    if (n % Math.max(1, Math.floor(times / 10)) === 0 && times >= 100) {
      const rss = process.memoryUsage.rss() / 1024 / 1024;
      process.stdout.write(`after ${n}: ${(heldKb() / 1024).toFixed(1)} MB held, ${rss.toFixed(0)} MB resident\n`);
    }
  }
  const grew = heldKb() - before;
  const each = grew / times;
  process.stdout.write(`${times} assemblies: ${grew.toFixed(0)} KB more held, ${each.toFixed(1)} KB each\n`);
  process.exitCode = grew > noise + mayLeave * times ? 1 : 0;
} finally {
  rmSync(root, { recursive: true, force: true });
}
