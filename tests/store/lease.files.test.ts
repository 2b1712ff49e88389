import { hostname } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { type Lot, openLot } from '../../core/store/index.ts';
import { holder, newLot, open, told } from './lot-in-folder.ts';
import { otherProgram } from './other-program.ts';

const here = { holder: { program: 'this program', host: hostname(), pid: process.pid } };

function closedLot(): Lot {
  const lot = newLot();
  lot.close();
  return lot;
}

/** Writes who holds the lot, as another computer would have. */
function heldBy(lot: Lot, row: { host: string; pid: number; secondsAgo: number; bootedAgo?: number }): void {
  const db = new Database(join(lot.folder, 'lot.sqlite'));
  const now = Math.floor(Date.now() / 1000);
  const booted = now - (row.bootedAgo ?? 86_400 * 3);
  db.prepare("INSERT INTO lease VALUES (1, 'theirs', 'the window', ?, ?, ?, ?)").run(
    row.host,
    row.pid,
    booted,
    now - row.secondsAgo,
  );
  db.close();
}

test('a second process is told who holds the lot, and gets it once that one is closed', async () => {
  const { folder } = closedLot();
  const lot = openLot(folder, here);
  const refused = otherProgram(folder);
  expect(await refused.says()).toBe(
    `refused: This lot is open in this program on ${hostname()} (process ${process.pid}).`,
  );
  await refused.ended();
  lot.close();
  const let_in = otherProgram(folder, 'close');
  expect(await let_in.says()).toBe('open');
  await let_in.ended();
});

test('we are told about a process that holds it; when that is killed the lot is taken over', async () => {
  const { folder } = closedLot();
  const other = otherProgram(folder);
  expect(await other.says()).toBe('open');
  expect(() => openLot(folder, here)).toThrow(
    expect.objectContaining(told('lot busy', new RegExp(`the other program on .* \\(process ${other.pid}\\)`))),
  );
  await other.kill();
  const lot = openLot(folder, here);
  lot.setTitle('Taken over');
  expect(lot.view().title).toBe('Taken over');
  lot.close();
});

test('the heartbeat does not keep a program alive that forgot to close its lot', async () => {
  const { folder } = closedLot();
  const other = otherProgram(folder, 'leave');
  expect(await other.says()).toBe('open');
  await other.ended();
  openLot(folder, here).close();
});

test('of several processes that open at once exactly one gets in', async () => {
  const { folder } = closedLot();
  const others = Array.from({ length: 4 }, () => otherProgram(folder));
  const said = await Promise.all(others.map((other) => other.says()));
  expect(said.filter((line) => line === 'open')).toHaveLength(1);
  expect(said.filter((line) => /^refused: This lot is open in the other program/.test(line))).toHaveLength(3);
});

test('a lot held on another computer is never taken over by itself, and by word only after five silent minutes', () => {
  const lot = closedLot();
  heldBy(lot, { host: 'bench-laptop', pid: 1, secondsAgo: 60 });
  expect(() => openLot(lot.folder, { ...open, takeOver: true })).toThrow(
    expect.objectContaining(told('lot busy', /the window on bench-laptop \(process 1\)\.$/)),
  );
  const later = { ...open, now: () => new Date(Date.now() + 10 * 60_000) };
  expect(() => openLot(lot.folder, later)).toThrow(
    expect.objectContaining(told('lot busy', /not been heard of for 11 minutes/)),
  );
  const taken = openLot(lot.folder, { ...later, takeOver: true });
  taken.setTitle('Ours now');
  taken.close();
});

test('a process number that lives on after the computer was started anew is not the one that held the lot', () => {
  const lot = closedLot();
  // Our own number is certainly alive; the row says it was taken long before this start of the computer.
  heldBy(lot, { host: holder.host, pid: process.pid, secondsAgo: 600, bootedAgo: 86_400 * 4000 });
  openLot(lot.folder, open).close();
});

test('a program whose lot was taken over meanwhile can write nothing more', () => {
  const lot = newLot();
  const db = new Database(join(lot.folder, 'lot.sqlite'));
  db.prepare("UPDATE lease SET token = 'theirs', program = 'the window', host = 'bench-laptop'").run();
  db.close();
  expect(() => lot.setTitle('Mine')).toThrow(expect.objectContaining(told('lot busy', /the window on bench-laptop/)));
  expect(lot.view().title).toBe('Heron Lane');
});
