import { cpSync, existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isRequestName, type RequestName, requests } from '../../../core/desk/contract/requests.ts';
import { type Asking, type Desk, openDesk } from '../../../core/desk/desk.ts';
import { asDay } from '../../../core/vocabulary/days.ts';
import { LotfileError } from '../../../core/vocabulary/errors.ts';
import { Chance } from '../../intake/fuzz/chance.ts';
import { argumentFor } from './arguments.ts';
import { beginLot, writeFiles } from './begun-lot.ts';
import { KnownWords } from './known-words.ts';
import { oddWord, soundDay } from './odd-values.ts';
import { notToldWell } from './told-well.ts';

export interface FuzzOrder {
  readonly folder: string;
  readonly count: number;
  readonly seed: number;
  /** Requests asked of one lot before it is looked over and a fresh one taken. */
  readonly perLot?: number;
  readonly onRequest?: (done: number) => void;
}

export interface FuzzReport {
  readonly asked: Readonly<Record<string, number>>;
  readonly answered: Readonly<Record<string, number>>;
  readonly refused: Readonly<Record<string, number>>;
  readonly found: readonly string[];
  readonly longest: { readonly request: string; readonly milliseconds: number };
}

const day = asDay('2026-04-14');
const names = Object.keys(requests).filter(isRequestName);
/** Those that write or read whole files come up less often than the rest: they take a hundred times as long. */
const quick = names.filter((name) => !requests[name].long && name !== 'new-lot' && name !== 'open-lot');
/** What every window asks at once; each must answer whatever was done before. */
const looks = [
  'read-lot',
  'papers',
  'way',
  'today',
  'costs',
  'with-offices',
  'table',
  'history',
  'practice',
  'trades',
  'records',
  'handovers',
  'packets',
  'practice-words',
] as const;

class Fuzz {
  readonly #order: FuzzOrder;
  readonly #desk: Desk;
  readonly #files: readonly string[];
  readonly #known = new KnownWords();
  readonly #asked: Record<string, number> = {};
  readonly #answered: Record<string, number> = {};
  readonly #refused: Record<string, number> = {};
  readonly #found = new Map<string, string>();
  #longest = { request: '', milliseconds: 0 };
  #chance: Chance;
  #lot = '';
  #made = 0;
  #turn = 0;
  #trail: string[] = [];

  constructor(order: FuzzOrder, desk: Desk, files: readonly string[]) {
    this.#order = order;
    this.#desk = desk;
    this.#files = files;
    this.#chance = new Chance(order.seed);
  }

  get report(): FuzzReport {
    return {
      asked: this.#asked,
      answered: this.#answered,
      refused: this.#refused,
      found: [...this.#found.values()],
      longest: this.#longest,
    };
  }

  /** A lot of its own for so many requests; its chance hangs on the seed and its number alone, so that a find can be had again. */
  async oneLot(number: number, count: number): Promise<void> {
    const { folder, seed } = this.#order;
    const place = join(folder, `lot-${number}`);
    cpSync(join(folder, 'begun'), place, { recursive: true });
    this.#chance = new Chance(seed * 1_000_003 + number);
    this.#known.clear();
    this.#trail = [];
    const ticket = this.#desk.tickets.offer(place);
    try {
      this.#lot = (await this.#desk.ask('open-lot', { folder: ticket })).lot;
      await this.#lookAround();
      for (let n = 0; n < count; n += 1) {
        await this.#one();
        if (n % 50 === 49) await this.#lookAround();
        if (!(await this.#isOpen())) this.#lot = (await this.#desk.ask('open-lot', { folder: ticket })).lot;
      }
      await this.#lookAround();
      await this.#lookOver();
      await this.#desk.ask('close-lot', {}, { lot: this.#lot });
      // What stands in the folder opens again in a program that knows nothing of this run.
      this.#lot = (await this.#desk.ask('open-lot', { folder: ticket })).lot;
      await this.#desk.ask('close-lot', {}, { lot: this.#lot });
    } catch (error) {
      this.#find('the lot itself', LotfileError.from(error).message);
    }
    rmSync(place, { recursive: true, force: true });
    rmSync(join(folder, 'made'), { recursive: true, force: true });
  }

  async #isOpen(): Promise<boolean> {
    return this.#desk.ask('history', { limit: 1 }, { lot: this.#lot }).then(
      () => true,
      () => false,
    );
  }

  #find(what: string, say: string): void {
    // One of each kind is enough; ids and numbers don't make another kind.
    const key = `${what}: ${say}`.replace(/[0-9a-f-]{8,}|\d+/g, '#').slice(0, 120);
    if (!this.#found.has(key))
      this.#found.set(key, `${what}: ${say}\n    after: ${this.#trail.slice(-3).join('\n           ')}`);
  }

  #ticket(field: string): string {
    const chance = this.#chance;
    if (field !== 'folder') return this.#desk.tickets.offer(chance.of(this.#files));
    const { folder } = this.#order;
    if (chance.below(6) === 0) return this.#desk.tickets.offer(chance.of([...this.#files, join(folder, 'begun')]));
    mkdirSync(join(folder, 'made'), { recursive: true });
    this.#made += 1;
    return this.#desk.tickets.offer(join(folder, 'made', `folder-${this.#made}`));
  }

  #asking(): Asking {
    const chance = this.#chance;
    const asking: Asking = { lot: chance.below(40) === 0 ? oddWord(chance) : this.#lot };
    if (chance.below(15) === 0) return { ...asking, on: asDay(soundDay(chance)) };
    if (chance.below(40) === 0)
      return { ...asking, signal: chance.below(2) === 0 ? AbortSignal.abort() : AbortSignal.timeout(chance.below(30)) };
    return asking;
  }

  /** Every third is the next in order, so that none is left out; the rest are chance's. */
  #next(): RequestName {
    this.#turn += 1;
    const inOrder = this.#turn % 3 === 0 ? names[(this.#turn / 3) % names.length] : undefined;
    const name = inOrder ?? this.#chance.of(quick);
    this.#asked[name] = (this.#asked[name] ?? 0) + 1;
    return name;
  }

  async #one(): Promise<void> {
    const chance = this.#chance;
    const name = this.#next();
    const argument = argumentFor(requests[name].in, {
      chance,
      known: this.#known,
      request: name,
      wild: chance.below(5) < 2,
      ticket: (field) => this.#ticket(field),
    });
    const asking = this.#asking();
    const began = performance.now();
    const given = JSON.stringify(argument) ?? 'undefined';
    this.#trail.push(`${name} ${given.slice(0, 600)}${asking.on === undefined ? '' : ` on ${asking.on}`}`);
    if (process.env.LOTFILE_FUZZ_TRAIL !== undefined)
      writeFileSync(process.env.LOTFILE_FUZZ_TRAIL, this.#trail.join('\n'));
    await this.#ask(name, argument, { asking, given });
    const milliseconds = Math.round(performance.now() - began);
    if (milliseconds > this.#longest.milliseconds)
      this.#longest = { request: `${name} ${given.slice(0, 200)}`, milliseconds };
  }

  async #ask(
    name: RequestName,
    argument: unknown,
    { asking, given }: { readonly asking: Asking; readonly given: string },
  ): Promise<void> {
    try {
      const answer = await this.#desk.askUntyped(name, argument, asking);
      JSON.stringify(answer);
      this.#answered[name] = (this.#answered[name] ?? 0) + 1;
      this.#known.learn(answer);
      if ('lot' in answer && typeof answer.lot === 'string' && answer.lot !== this.#lot) {
        await this.#desk.ask('close-lot', {}, { lot: answer.lot });
      }
    } catch (error) {
      if (!(error instanceof LotfileError)) return this.#find(name, `threw ${String(error)}`);
      this.#refused[error.code] = (this.#refused[error.code] ?? 0) + 1;
      const fault = notToldWell(error, given);
      if (fault !== undefined)
        this.#find(
          name,
          `${fault}${error.code === 'internal' && error.cause instanceof Error ? `\n${error.cause.stack}` : ''}`,
        );
    }
  }

  async #lookAround(): Promise<void> {
    for (const name of looks) {
      try {
        const answer = await this.#desk.askUntyped(name, {}, { lot: this.#lot });
        if ('practice' in answer && typeof answer.practice === 'object') this.#known.learnPractice(answer.practice);
        else this.#known.learn(answer);
      } catch (error) {
        const told = LotfileError.from(error);
        if (told.code !== 'not found')
          this.#find(
            `the screen of ${name}`,
            `${told.message}${told.cause instanceof Error ? `\n${told.cause.stack}` : ''}`,
          );
      }
    }
    if (Object.hasOwn(Object.prototype, 'polluted')) this.#find('Object.prototype', 'was written to');
  }

  /** Every file and row of the lot. A packet whose keeping was undone may stand there yet: that is told, not wrong. */
  async #lookOver(): Promise<void> {
    const { problems } = await this.#desk.ask('verify', {}, { lot: this.#lot });
    for (const { sort, say } of problems) {
      if (sort !== 'orphan' || !say.startsWith('packets/')) this.#find('verify', say);
    }
  }
}

/** Asks so many requests of a desk, most with something odd in them, and says what ended otherwise than well. */
export async function fuzzDesk(order: FuzzOrder): Promise<FuzzReport> {
  const { folder, count, perLot = 250, onRequest } = order;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const files = await writeFiles(join(folder, 'files'));
  await using desk = openDesk({ program: 'fuzz', today: () => day });
  await beginLot(desk, join(folder, 'begun'), files);
  if (!existsSync(join(folder, 'begun', 'lot.sqlite'))) throw new Error('The lot was not begun.');
  const fuzz = new Fuzz(order, desk, files);
  for (let done = 0, number = 0; done < count; done += perLot, number += 1) {
    await fuzz.oneLot(number, Math.min(perLot, count - done));
    onRequest?.(Math.min(count, done + perLot));
  }
  rmSync(folder, { recursive: true, force: true });
  return fuzz.report;
}
