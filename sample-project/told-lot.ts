import { cpSync, mkdirSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { assembledText } from '../core/cli/print/packet.ts';
import type { Desk } from '../core/desk/desk.ts';
import { type AssembleAnswer, dayWithWeekday, LotfileError } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { sampleLayers } from './practice-layers.ts';
import type { Story } from './story-model.ts';
import { Timeline } from './timeline.ts';

async function openIn(desk: Desk, folder: string): Promise<string> {
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  return lot;
}

/** One lot being told, and what there is to say about it; kept back until its turn comes. */
export class ToldLot {
  readonly #desk: Desk;
  #lot: string;
  readonly #folder: string;
  #timeline: Timeline;
  readonly #lines: string[] = [];

  private constructor(desk: Desk, at: { lot: string; folder: string; timeline: Timeline }) {
    this.#desk = desk;
    this.#lot = at.lot;
    this.#folder = at.folder;
    this.#timeline = at.timeline;
  }

  /** A new lot in a new folder, with what was known from the start. */
  static async begin(desk: Desk, folder: string, story: Story): Promise<ToldLot> {
    mkdirSync(dirname(folder), { recursive: true });
    const { title, target } = story;
    const asked = { folder: desk.tickets.offer(folder), title, target, layers: sampleLayers() };
    const { lot } = await desk.ask('new-lot', asked);
    const timeline = new Timeline(desk, lot, story);
    await timeline.begin();
    return new ToldLot(desk, { lot, folder, timeline });
  }

  /** A copy of the lot as it is now, on a desk of its own, that goes on as another story. */
  async fork(desk: Desk, folder: string, story: Story): Promise<ToldLot> {
    mkdirSync(dirname(folder), { recursive: true });
    const told = this.#timeline;
    // Only a lot that nobody has open is whole when it is copied.
    await this.ask('close-lot', {});
    cpSync(this.#folder, folder, { recursive: true });
    this.#lot = await openIn(this.#desk, this.#folder);
    this.#timeline = told.fork({ desk: this.#desk, lot: this.#lot });
    const lot = await openIn(desk, folder);
    return new ToldLot(desk, { lot, folder, timeline: told.fork({ desk, lot, story }) });
  }

  get folder(): string {
    return this.#folder;
  }

  async tellTo(day: Day): Promise<void> {
    await this.#timeline.tellTo(day);
  }

  /** What any screen shows of it on a day. */
  ask: Desk['ask'] = (name, argument, asking = {}) => this.#desk.ask(name, argument, { ...asking, lot: this.#lot });

  say(text: string): void {
    this.#lines.push(text);
  }

  chapter(title: string, day: Day): void {
    const line = `${title}: ${dayWithWeekday(day)}`;
    this.say(`\n${line}\n${'='.repeat(line.length)}\n`);
  }

  /** Assembles an errand's packet into a folder named after the day and the errand. */
  async assemble(errand: string, day: Day, out: string): Promise<AssembleAnswer> {
    return this.#lay(await this.ask('assemble', { errand }, { on: day }), join(out, day, errand));
  }

  /** The packet that was handed over that day. */
  handed(title: string, folder: string): AssembleAnswer {
    const answer = this.#timeline.packet(title);
    if (answer === undefined) throw new LotfileError('internal', `The story hands over no "${title}".`);
    return this.#lay(answer, folder);
  }

  #lay(answer: AssembleAnswer, folder: string): AssembleAnswer {
    mkdirSync(folder, { recursive: true });
    for (const { ticket, name } of answer.files) cpSync(this.#desk.tickets.look(ticket).path, join(folder, name));
    this.say(`${assembledText(answer)}\n\nThe files are in ${relative(process.cwd(), folder)}.\n`);
    return answer;
  }

  /** All that was said, in order. */
  text(): string {
    return this.#lines.join('\n');
  }
}

/** The story is told by the program, so what it must find is checked: a silent change of mind ends with 1. */
export function expectTold(told: readonly (readonly [string, boolean])[]): void {
  const broken = told.filter(([, holds]) => !holds).map(([what]) => what);
  if (broken.length === 0) return;
  throw new LotfileError('internal', `The story did not run as told: ${broken.join('; ')}.`, {
    next: 'Something in the practice, the papers or the program changed; run npm test.',
  });
}
