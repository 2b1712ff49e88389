import { existsSync, mkdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { scrapsOf } from '../../../core/intake/keep-context.ts';
import { pagesOf } from '../../../core/intake/page/page-tree.ts';
import { fileSource } from '../../../core/intake/pdfium/byte-source.ts';
import { RegularFile } from '../../../core/intake/regular/regular-file.ts';
import { LotfileError } from '../../../core/vocabulary/errors.ts';
import type { WorkPort } from '../../../core/workers/port.ts';
import { Chance } from './chance.ts';
import { mutated } from './mutate.ts';
import { fuzzSeeds } from './seeds.ts';

export interface FuzzSettings {
  readonly workers: WorkPort;
  /** A folder for the files; what was found stays there. */
  readonly folder: string;
  readonly count: number;
  readonly seed: number;
  readonly lanes: number;
  onFile?(done: number): void;
}

export interface FuzzReport {
  readonly kept: Readonly<Record<string, number>>;
  readonly refused: Readonly<Record<string, number>>;
  /** What should never happen, with the number that makes the file again. */
  readonly found: readonly string[];
  readonly longest: { readonly milliseconds: number; readonly file: number };
}

/** Sentences that a worker's end leaves: they are right for the person, and finds for us. */
const ends = /makes the reader break down|takes longer to read|takes more memory|can't be read\.$/;

function countIn(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** The kept file must read by the rules that linking relies on, and nothing else may be left behind. */
function leftWrong(output: string, pages: number | undefined): string | undefined {
  if (scrapsOf(output).some((path) => existsSync(path))) return 'left a scrap behind';
  if (pages === undefined) return existsSync(output) ? 'left pages of a refused file' : undefined;
  if (!existsSync(output) || statSync(output).size === 0) return 'kept nothing';
  const source = fileSource(output);
  try {
    const found = pagesOf(new RegularFile(source)).length;
    return found === pages ? undefined : `holds ${found} pages and tells of ${pages}`;
  } catch (problem) {
    return `does not read by the rules: ${String(problem)}`;
  } finally {
    source.close();
  }
}

class Fuzz {
  readonly #settings: FuzzSettings;
  readonly #kept = new Map<string, number>();
  readonly #refused = new Map<string, number>();
  readonly #found: string[] = [];
  #longest = { milliseconds: 0, file: 0 };
  #done = 0;

  constructor(settings: FuzzSettings) {
    this.#settings = settings;
  }

  async run(): Promise<FuzzReport> {
    const { count, lanes } = this.#settings;
    const seeds = await fuzzSeeds();
    const numbers = Array.from({ length: count }, (_, at) => at).values();
    const lane = async () => {
      for (const number of numbers) await this.#one(number, seeds);
    };
    await Promise.all(Array.from({ length: lanes }, lane));
    return {
      kept: Object.fromEntries(this.#kept),
      refused: Object.fromEntries(this.#refused),
      found: this.#found,
      longest: this.#longest,
    };
  }

  async #one(number: number, seeds: readonly { readonly name: string; readonly bytes: Buffer }[]): Promise<void> {
    const { folder, seed, workers, onFile } = this.#settings;
    const chance = new Chance(seed * 1_000_003 + number);
    const base = chance.of(seeds);
    const bytes = mutated(base.bytes, chance, chance.of(seeds).bytes);
    const input = join(folder, `${number}`);
    const output = `${input}.kept`;
    writeFileSync(input, bytes);
    const start = performance.now();
    const wrong = await this.#keep({ workers, input, output, name: base.name });
    const milliseconds = Math.round(performance.now() - start);
    if (milliseconds > this.#longest.milliseconds) this.#longest = { milliseconds, file: number };
    rmSync(output, { force: true });
    if (wrong === undefined) rmSync(input, { force: true });
    else this.#found.push(`file ${number} of seed ${seed} (from "${base.name}"): ${wrong}`);
    this.#done += 1;
    onFile?.(this.#done);
  }

  /** @returns what went wrong, if anything */
  async #keep(at: { workers: WorkPort; input: string; output: string; name: string }): Promise<string | undefined> {
    const { workers, input, output, name } = at;
    try {
      const { rendition } = await workers.keep({ job: 'keep', input, name, output });
      countIn(this.#kept, rendition.rung);
      return rendition.pages.length === 0 ? 'was kept without pages' : leftWrong(output, rendition.pages.length);
    } catch (problem) {
      const { code, message, next } = LotfileError.from(problem);
      countIn(this.#refused, message.replaceAll(name, '...').replace(/\d+/g, 'n'));
      if (code !== 'file refused' || ends.test(message)) return `${code}: ${message}`;
      if (!/\.$/.test(message) || next === undefined) return `has no sentence: ${message}`;
      return leftWrong(output, undefined);
    }
  }
}

/** Keeps files that chance changed, and tells how each ended. */
export async function fuzzFiles(settings: FuzzSettings): Promise<FuzzReport> {
  mkdirSync(settings.folder, { recursive: true });
  return await new Fuzz(settings).run();
}
