import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { RequestName } from '../../core/desk/contract/requests.ts';
import { openDesk } from '../../core/desk/desk.ts';
import { writeScan } from '../desk/make-scan.ts';
import { smallDay, writePdf } from '../desk/small-lot.ts';

/**
 * How long the desk takes to answer while 50 files come in and are read: `npx node tests/bench/while-files-come-in.ts
 * [LOT FOLDER] [--files 50]`. With a lot folder a copy of it is worked on, else an empty lot.
 */
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { files: { type: 'string', default: '50' } },
});
const count = Number(values.files);
const root = mkdtempSync(join(tmpdir(), 'lotfile-coming-in-'));
const folder = join(root, 'lot');
const desk = openDesk({ program: 'bench', today: () => smallDay, stays: true });
const given = positionals[0];
if (given !== undefined) cpSync(given, folder, { recursive: true });
const { lot } =
  given === undefined
    ? await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Bench' })
    : await desk.ask('open-lot', { folder: desk.tickets.offer(folder), takeOver: true });

mkdirSync(join(root, 'in'));
const words = (n: number): string =>
  `Harrow County\nBuilding permit\nPermit number: BP-26-${1000 + n}\nDate issued: 03/02/2026\nExpires: 03/02/2027`;
const files: string[] = [];
for (let n = 0; n < count; n += 1) {
  const path = join(root, 'in', `file ${n}.pdf`);
  await (n % 2 === 0 ? writePdf(path, [words(n), words(n)]) : writeScan(path, [words(n), '']));
  files.push(desk.tickets.offer(path));
}

const times: { readonly name: string; readonly ms: number; readonly during: string }[] = [];
let during = 'laying down';
let going = true;
const asked: readonly RequestName[] = ['today', 'papers', 'read-lot', 'table', 'way', 'history'];
async function asking(): Promise<void> {
  for (let n = 0; going; n += 1) {
    const name = asked[n % asked.length] ?? 'today';
    const start = performance.now();
    await desk.askUntyped(name, {}, { lot });
    times.push({ name, ms: performance.now() - start, during });
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
for (const name of asked) await desk.askUntyped(name, {}, { lot });

const began = performance.now();
const askers = asking();
await desk.ask('lay-down', { files }, { lot });
const laid = performance.now() - began;
during = 'reading';
for (let done = 0; done < count; ) {
  const { items } = await desk.ask('table', {}, { lot });
  done = items.filter(({ reading, already }) => reading === 'done' || already !== undefined).length;
  await new Promise((resolve) => setTimeout(resolve, 300));
}
const read = performance.now() - began;
going = false;
await askers;
process.stdout.write(
  `${count} files laid down in ${(laid / 1000).toFixed(1)} s, read in ${(read / 1000).toFixed(1)} s\n`,
);
for (const stage of ['laying down', 'reading']) {
  for (const name of asked) {
    const own = times
      .filter((time) => time.name === name && time.during === stage)
      .map(({ ms }) => ms)
      .toSorted((a, b) => a - b);
    if (own.length === 0) continue;
    const at = (share: number): string => (own[Math.floor((own.length - 1) * share)] ?? 0).toFixed(1);
    process.stdout.write(
      `  ${stage}, ${name}: ${own.length} answers, half within ${at(0.5)} ms, 95% within ${at(0.95)}, slowest ${at(1)}\n`,
    );
  }
}
await desk.close();
rmSync(root, { recursive: true, force: true });
