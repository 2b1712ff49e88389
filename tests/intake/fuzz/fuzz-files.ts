import { existsSync, mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { scrapsOf } from '../../../core/intake/keep-context.ts';
import { pagesOf } from '../../../core/intake/page/page-tree.ts';
import { fileSource } from '../../../core/intake/pdfium/byte-source.ts';
import { RegularFile } from '../../../core/intake/regular/regular-file.ts';
import type { KeepDone } from '../../../core/intake/rendition-model.ts';
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
  /** What was kept is handed on while its pages still lie there. */
  onKept?(input: string, output: string, done: KeepDone): Promise<void>;
  onFile?(done: number): void;
}

export interface FuzzReport {
  /** By the ending of the file that was changed: kept or taken apart, refused. */
  readonly sorts: Readonly<Record<string, { readonly kept: number; readonly refused: number }>>;
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

interface At {
  readonly workers: WorkPort;
  readonly input: string;
  readonly output: string;
  readonly name: string;
}

const holders: ReadonlySet<string> = new Set(['.eml', '.msg', '.zip']);

class Fuzz {
  readonly #settings: FuzzSettings;
  readonly #sorts = new Map<string, { kept: number; refused: number }>();
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
      sorts: Object.fromEntries(this.#sorts),
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
    const at = { workers, input, output, name: base.name };
    const wrong = holders.has(extname(base.name)) ? await this.#unpack(at) : await this.#keep(at);
    const milliseconds = Math.round(performance.now() - start);
    if (milliseconds > this.#longest.milliseconds) this.#longest = { milliseconds, file: number };
    rmSync(output, { force: true });
    if (wrong === undefined) rmSync(input, { force: true });
    else this.#found.push(`file ${number} of seed ${seed} (from "${base.name}"): ${wrong}`);
    this.#done += 1;
    onFile?.(this.#done);
  }

  /** @returns what went wrong, if anything */
  async #keep({ workers, input, output, name }: At): Promise<string | undefined> {
    try {
      const done = await workers.keep({ job: 'keep', input, name, output });
      const { rendition } = done;
      this.#count(name, rendition.rung, true);
      await this.#settings.onKept?.(input, output, done);
      return rendition.pages.length === 0 ? 'was kept without pages' : leftWrong(output, rendition.pages.length);
    } catch (problem) {
      return this.#notKept(name, problem) ?? leftWrong(output, undefined);
    }
  }

  /** @returns what went wrong, if anything */
  async #unpack({ workers, input, output, name }: At): Promise<string | undefined> {
    mkdirSync(output);
    try {
      const { files } = await workers.unpack({ job: 'unpack', input, name, output });
      this.#count(name, 'taken apart', true);
      const there = readdirSync(output).length;
      return there === files.length ? undefined : `tells of ${files.length} files and left ${there}`;
    } catch (problem) {
      const left = existsSync(output) ? readdirSync(output).length : 0;
      return this.#notKept(name, problem) ?? (left === 0 ? undefined : 'left files of what was refused');
    } finally {
      rmSync(output, { recursive: true, force: true });
    }
  }

  #notKept(name: string, problem: unknown): string | undefined {
    const { code, message, next } = LotfileError.from(problem);
    this.#count(name, message.replaceAll(name, '...').replace(/\d+/g, 'n'), false);
    if (code !== 'file refused' || ends.test(message)) return `${code}: ${message}`;
    return !/\.$/.test(message) || next === undefined ? `has no sentence: ${message}` : undefined;
  }

  #count(name: string, how: string, kept: boolean): void {
    countIn(kept ? this.#kept : this.#refused, how);
    const sort = this.#sorts.get(extname(name)) ?? { kept: 0, refused: 0 };
    sort[kept ? 'kept' : 'refused'] += 1;
    this.#sorts.set(extname(name), sort);
  }
}

/** Keeps files that chance changed, and tells how each ended. */
export async function fuzzFiles(settings: FuzzSettings): Promise<FuzzReport> {
  mkdirSync(settings.folder, { recursive: true });
  return await new Fuzz(settings).run();
}
