import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { openDesk } from '../../core/desk/desk.ts';
import { type BenchSources, makeBenchSources } from './packet-bench.ts';
import { peersOf, stampsPath, writeStamps } from './peers.ts';

export interface PeerFigure {
  readonly name: string;
  readonly ms: number;
  /** Our first packet of a process, and the middle one of those made in turn with theirs after it, over theirs. */
  readonly first: number;
  readonly again: number;
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
  readonly peers: readonly PeerFigure[];
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

interface Run {
  readonly ms: number;
  readonly pages: number;
  readonly peakMb: number;
}

/** Our side, one packet each time it is told to, in one process. */
class OurRuns {
  readonly #child: ChildProcess;
  readonly #lines: AsyncIterator<string>;

  constructor(folder: string) {
    const program = join(import.meta.dirname, 'assemble-child.ts');
    this.#child = spawn(process.execPath, ['--max-semi-space-size=4', program, folder], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    if (this.#child.stdout === null) throw new Error('The child has no output.');
    this.#lines = createInterface({ input: this.#child.stdout })[Symbol.asyncIterator]();
  }

  async ready(): Promise<void> {
    if ((await this.#next()) !== 'ready') throw new Error('The child did not begin.');
  }

  /** Removes what was assembled; the disk settles. */
  async clear(): Promise<void> {
    this.#child.stdin?.write('clear\n');
    await this.ready();
    spawnSync('sync');
  }

  async assemble(): Promise<Run> {
    this.#child.stdin?.write('assemble\n');
    return JSON.parse(await this.#next());
  }

  async end(): Promise<void> {
    this.#child.stdin?.end();
    await new Promise((done) => this.#child.once('exit', done));
  }

  async #next(): Promise<string> {
    const { value, done } = await this.#lines.next();
    if (done === true) throw new Error('The child ended early.');
    return value;
  }
}

function middle(numbers: readonly number[]): number {
  return numbers.toSorted((a, b) => a - b)[numbers.length >> 1] ?? 0;
}

/** One peer and our packets made in its turns. */
interface Turns {
  readonly name: string;
  readonly ours: readonly Run[];
  readonly theirs: readonly number[];
}

/** Ours and theirs in turn, one peer after the other, so that each pair sees the same minutes of the machine. */
async function inTurn(lot: string, sources: BenchSources, folder: string): Promise<readonly Turns[]> {
  await writeStamps(stampsPath(folder), sources.pages);
  const all: Turns[] = [];
  const our = new OurRuns(lot);
  await our.ready();
  for (const peer of peersOf({ ...sources, folder })) {
    const ours: Run[] = [];
    const theirs: number[] = [];
    for (let round = 0; round < peer.rounds; round += 1) {
      await our.clear();
      ours.push(await our.assemble());
      theirs.push(peer.run());
    }
    all.push({ name: peer.name, ours, theirs });
  }
  await our.end();
  return all;
}

function peerFigure({ name, ours, theirs }: Turns, firstMs: number): PeerFigure {
  const ms = middle(theirs);
  return { name, ms, first: firstMs / ms, again: middle(ours.map((run) => run.ms)) / ms };
}

/** Assembling a kept lot of about `pages` pages, everything included, against general programs on the same originals. */
export async function benchAssemble(root: string, pages: number): Promise<AssembleRow> {
  const folder = join(root, `peers-${pages}`);
  mkdirSync(folder, { recursive: true });
  const made = await makeBenchSources(join(root, `sources-${pages}`), pages);
  const lot = join(root, `lot-${pages}`);
  rmSync(lot, { recursive: true, force: true });
  const keepMs = await keepAll(lot, made.files);
  // What keeping wrote is still on its way to the disk, and only we force our file there: that is not assembling.
  spawnSync('sync');
  const turns = await inTurn(lot, made, folder);
  const [first, ...again] = turns.flatMap(({ ours }) => ours);
  const firstMs = first?.ms ?? 0;
  const peers = turns.map(({ name, ours, theirs }) =>
    peerFigure({ name, ours: ours.filter((run) => run !== first), theirs }, firstMs),
  );
  for (const used of [folder, lot, join(root, `sources-${pages}`)]) rmSync(used, { recursive: true, force: true });
  return {
    pages: made.pages,
    megabytes: made.bytes / 1e6,
    firstMs,
    againMs: middle(again.map(({ ms }) => ms)),
    firstPeakMb: first?.peakMb ?? 0,
    peakMb: again[3]?.peakMb ?? 0,
    keepPagesPerSecond: made.pages / (keepMs / 1000),
    peers,
  };
}

if (process.argv[1] === import.meta.filename) {
  const [root = '', ...sizes] = process.argv.slice(2);
  for (const size of sizes) process.stdout.write(`${JSON.stringify(await benchAssemble(root, Number(size)))}\n`);
}
