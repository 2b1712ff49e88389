import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { openDesk } from '../../core/desk/desk.ts';
import { type Day, type DeskEvents, dayInWords, LotfileError } from '../../core/desk/door.ts';
import { sampleLayers } from '../../sample-project/practice-layers.ts';
import { type StateName, sampleState } from '../../sample-project/states.ts';
import type { Story } from '../../sample-project/story-model.ts';
import { Timeline } from '../../sample-project/timeline.ts';
import { readPrivate, writePrivate } from './private-file.ts';
import type { SampleState } from './sample-state.ts';

type Tell = (told: DeskEvents['progress']) => void;

export interface SampleOffered {
  readonly path: string;
  /** The day its story stands at. */
  readonly day: Day;
}

export interface SampleOptions {
  readonly version: string;
  /** How the lot in that folder stands, asked of whoever may have it open. */
  readonly look: (path: string) => Promise<SampleState>;
  /** How far along its way; days before the permit where none is named. */
  readonly name?: StateName | undefined;
  /** Another one for tests. */
  readonly told?: (() => ToldSample) | undefined;
}

/** A story, and the day it is told to. */
interface ToldSample {
  readonly story: Story;
  readonly day: Day;
}

const madeSchema = z.object({ stamp: z.string() });
/** Changes with the program and with the story: an older sample is made anew. */
function stampOf(version: string, { story, day }: ToldSample): string {
  const hash = createHash('sha256').update(`${version}\n${day}\n${JSON.stringify(story)}`);
  for (const { text } of sampleLayers()) hash.update(text);
  return hash.digest('hex');
}

/**
 * The sample lot of this computer: made once from the invented papers, then kept, with whatever the person tried on
 * it. Made again where it is of another version or can't be opened; what was there is set aside, not deleted.
 */
export class SampleLot {
  readonly #folder: string;
  readonly #version: string;
  readonly #told: () => ToldSample;
  readonly #stop = new AbortController();
  readonly #look: (path: string) => Promise<SampleState>;
  #making: Promise<SampleOffered> | undefined;

  /** @param config the host's folder for private things. */
  constructor(config: string, { version, look, name = 'permit', told }: SampleOptions) {
    this.#told = told ?? (() => sampleState(name));
    this.#folder = join(config, name === 'permit' ? 'sample' : `sample-${name}`);
    this.#version = version;
    this.#look = look;
  }

  get #lot(): string {
    return join(this.#folder, 'lot');
  }

  isIt(path: string): boolean {
    return path === this.#lot;
  }

  /** Asked twice at once, it is made once. */
  async get(tell: Tell): Promise<SampleOffered> {
    this.#making ??= this.#get(tell).finally(() => {
      this.#making = undefined;
    });
    return this.#making;
  }

  async close(): Promise<void> {
    this.#stop.abort();
    await this.#making?.catch(() => undefined);
  }

  async #get(tell: Tell): Promise<SampleOffered> {
    const told = this.#told();
    const offered = { path: this.#lot, day: told.day };
    const stamp = stampOf(this.#version, told);
    const made = readPrivate(join(this.#folder, 'made.json'), madeSchema);
    const state = existsSync(this.#lot) ? await this.#look(this.#lot) : 'damaged';
    if (state === 'in use' || (state === 'sound' && made?.stamp === stamp)) return offered;
    await this.#make(told, tell);
    writePrivate(join(this.#folder, 'made.json'), { stamp });
    return offered;
  }

  async #make(told: ToldSample, tell: Tell): Promise<void> {
    this.#sweep();
    const making = join(this.#folder, `making-${randomUUID()}`);
    mkdirSync(making, { recursive: true, mode: 0o700 });
    try {
      await this.#tellStory(told, join(making, 'lot'), tell);
      if (existsSync(this.#lot)) {
        rmSync(join(this.#folder, 'set-aside'), { recursive: true, force: true });
        renameSync(this.#lot, join(this.#folder, 'set-aside'));
      }
      renameSync(join(making, 'lot'), this.#lot);
    } finally {
      rmSync(making, { recursive: true, force: true });
    }
  }

  /** What a program that was ended in the middle left behind. */
  #sweep(): void {
    if (!existsSync(this.#folder)) return;
    for (const name of readdirSync(this.#folder)) {
      if (name.startsWith('making-')) rmSync(join(this.#folder, name), { recursive: true, force: true });
    }
  }

  async #tellStory({ story, day: end }: ToldSample, path: string, tell: Tell): Promise<void> {
    await using desk = openDesk({ program: 'Lotfile (making the sample)', today: () => end });
    const papers = story.papers.filter(({ from_day }) => from_day <= end);
    const of = papers.length;
    const say = (what: string, done: number): void => tell({ request: 'sample-lot', what, done, of });
    say('Making the sample lot', 0);
    const { title, target } = story;
    const folder = desk.tickets.offer(path);
    const { lot } = await desk.ask('new-lot', { folder, title, target, layers: sampleLayers() });
    const timeline = new Timeline(desk, lot, story);
    await timeline.begin();
    const days = [...new Set(papers.map(({ from_day }) => from_day))].sort((a, b) => (a < b ? -1 : 1));
    for (const day of days) {
      if (this.#stop.signal.aborted) throw new LotfileError('stopped', 'Making the sample lot was stopped.');
      say(`Keeping the papers of ${dayInWords(day)}`, papers.filter(({ from_day }) => from_day < day).length);
      await timeline.tellTo(day);
    }
    await timeline.tellTo(end);
    say('The sample lot is ready', of);
  }
}
