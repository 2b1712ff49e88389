import { fileURLToPath } from 'node:url';
import type { Desk } from '../core/desk/desk.ts';
import { LotfileError, type RequestAnswer, type RequestArgument, type RequestName } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import type { VisitState } from '../core/vocabulary/lot.ts';
import { paperFile, type Story, type StoryPaper } from './story-model.ts';

/** Something of the story that happens on a day. Within a day: words, money and firms, papers, visits, then events. */
interface Moment {
  readonly day: Day;
  readonly rank: number;
  readonly run: () => Promise<void>;
}

/** Tells the story to a lot, as far as a day; told again with a later day, it goes on from where it was. */
export class Timeline {
  readonly #desk: Desk;
  readonly #lot: string;
  readonly #story: Story;
  readonly #editions = new Map<string, string>();
  readonly #subjects = new Map<string, string>();
  readonly #packets = new Map<string, RequestAnswer<'assemble'>>();
  #toldTo: Day = '0000-01-01';

  constructor(desk: Desk, lot: string, story: Story) {
    this.#desk = desk;
    this.#lot = lot;
    this.#story = story;
  }

  /** Goes on elsewhere, as the same story or as another, from where it was. */
  fork({ desk, lot, story = this.#story }: { desk: Desk; lot: string; story?: Story }): Timeline {
    const other = new Timeline(desk, lot, story);
    for (const [key, edition] of this.#editions) other.#editions.set(key, edition);
    for (const [key, subject] of this.#subjects) other.#subjects.set(key, subject);
    for (const [title, packet] of this.#packets) other.#packets.set(title, packet);
    other.#toldTo = this.#toldTo;
    return other;
  }

  /** What was known from the start: answers, names, firms. */
  async begin(): Promise<void> {
    const { answers, identities, same_as, subjects } = this.#story;
    for (const [question, answer] of Object.entries(answers)) {
      await this.#desk.ask('answer', { question, answer: plainAnswer(answer) }, { lot: this.#lot });
    }
    for (const identity of identities) await this.#desk.ask('identity', identity, { lot: this.#lot });
    for (const same of same_as) await this.#desk.ask('same', same, { lot: this.#lot });
    for (const { key, firm, trade, from, to } of subjects) {
      const { subject } = await this.#desk.ask('engage', { firm, trade, from, to }, { lot: this.#lot });
      this.#subjects.set(key, subject);
    }
  }

  /** Everything that happened since the last telling, up to and with `day`. */
  async tellTo(day: Day): Promise<void> {
    const moments = this.#moments().filter((moment) => moment.day > this.#toldTo && moment.day <= day);
    moments.sort((a, b) => (a.day === b.day ? a.rank - b.rank : a.day < b.day ? -1 : 1));
    for (const moment of moments) await moment.run();
    this.#toldTo = day;
  }

  #moments(): Moment[] {
    const { words, acts, papers, visits, handovers, records, events } = this.#story;
    const days = [...new Set(papers.map(({ from_day }) => from_day))];
    return [
      ...words.map(
        ({ target, value, who, day, note }): Moment => ({
          day,
          rank: 0,
          run: () => this.#ask('clerk-said', { rule: target, value, who, day, note }, day),
        }),
      ),
      ...acts.map(
        ({ day, do: request, day_of, ...said }): Moment => ({
          day,
          rank: 1,
          run: () => this.#ask(request, day_of === undefined ? said : { ...said, day: day_of }, day),
        }),
      ),
      ...days.map(
        (day): Moment => ({
          day,
          rank: 2,
          run: () =>
            this.#keepAll(
              papers.filter((paper) => paper.from_day === day),
              day,
            ),
        }),
      ),
      ...papers.flatMap(({ key, standings }) =>
        standings.map(
          ({ office, word, day, note }): Moment => ({
            day,
            rank: 3,
            run: () => this.#ask('standing', { edition: this.#edition(key), office, word, day, note }, day),
          }),
        ),
      ),
      ...handovers.map((given): Moment => ({ day: given.day, rank: 4, run: () => this.#handOver(given) })),
      ...visits.flatMap((visit) => this.#visits(visit)),
      ...records.map((one): Moment => ({ day: one.day, rank: 6, run: () => this.#record(one) })),
      ...events.map(
        ({ event, day, note }): Moment => ({ day, rank: 7, run: () => this.#ask('event', { event, day, note }, day) }),
      ),
    ];
  }

  /** Whatever the story says is checked by the contract, as if a person had typed it. */
  async #ask(request: RequestName, said: object, on: Day): Promise<void> {
    await this.#desk.askUntyped(request, said, { lot: this.#lot, on });
  }

  async #handOver({ day, errand, papers, title, to, how, receipt }: Story['handovers'][number]): Promise<void> {
    const asking = { lot: this.#lot, on: day };
    const said = errand === undefined ? { papers, title, recipient: to } : { errand };
    const packet = this.#packets.get(title) ?? (await this.#desk.ask('assemble', said, asking));
    this.#packets.set(title, packet);
    await this.#desk.ask('hand-over', { packet: packet.packet, to, how, day, receipt }, asking);
  }

  /** A packet that was given to somebody, by its title. */
  packet(title: string): RequestAnswer<'assemble'> | undefined {
    return this.#packets.get(title);
  }

  async #record({ file, ...said }: Story['records'][number]): Promise<void> {
    const ticket = file === undefined ? undefined : this.#desk.tickets.offer(fileURLToPath(paperFile(file)), file);
    await this.#ask('record', { ...said, file: ticket }, said.day);
  }

  #visits({ errand, day, settled, outcome, note, sent_back, comments, due }: Story['visits'][number]): Moment[] {
    const at = (on: Day, state: VisitState): Moment => ({
      day: on,
      rank: 5,
      run: () => {
        const told = state === 'left with them' ? { note } : { outcome, note };
        const back = state === 'left with them' ? {} : { comments: [...sent_back, ...comments], due };
        return this.#ask('visit', { errand, day: on, state, ...told, ...back }, on);
      },
    });
    if (sent_back.length > 0) return [at(day, 'sent back')];
    if (settled === undefined) return [at(day, 'left with them')];
    return settled === day ? [at(day, 'settled')] : [at(day, 'left with them'), at(settled, 'settled')];
  }

  #edition(key: string): string {
    const edition = this.#editions.get(key);
    if (edition === undefined) throw new LotfileError('internal', `The story names "${key}" before it came in.`);
    return edition;
  }

  /** Together where none links to another of them: a paper may link to one that came in on the same day. */
  async #keepAll(papers: readonly StoryPaper[], day: Day): Promise<void> {
    let together: StoryPaper[] = [];
    for (const paper of papers) {
      if (paper.fill !== undefined || paper.links.some(({ to }) => together.some(({ key }) => key === to))) {
        await this.#keep(together, day);
        together = [];
      }
      if (paper.fill === undefined) together.push(paper);
      else await this.#fillForm(paper.key, { errand: paper.fill, day });
    }
    await this.#keep(together, day);
  }

  async #fillForm(key: string, { errand, day }: { readonly errand: string; readonly day: Day }): Promise<void> {
    const { edition } = await this.#desk.ask('fill-form', { errand }, { lot: this.#lot, on: day });
    if (edition !== undefined) this.#editions.set(key, edition);
  }

  async #keep(papers: readonly StoryPaper[], day: Day): Promise<void> {
    if (papers.length === 0) return;
    const said = papers.map((paper) => this.#said(paper));
    const { kept, refused } = await this.#desk.ask('keep', { papers: said }, { lot: this.#lot, on: day });
    const [first] = refused;
    if (first !== undefined) throw LotfileError.from(first.error);
    for (const [n, { edition }] of kept.entries()) this.#editions.set(papers[n]?.key ?? '', edition);
  }

  #said(paper: StoryPaper): RequestArgument<'keep'>['papers'][number] {
    const { kind, files, title, subject, issued, effective, number, issuer, revision, facts, marks } = paper;
    return {
      files: files.map((name) => this.#desk.tickets.offer(fileURLToPath(paperFile(name)), name)),
      kind,
      title,
      // A firm that came later is known by its name.
      subject: subject === undefined ? undefined : (this.#subjects.get(subject) ?? subject),
      issued,
      effective,
      goodThrough: paper.good_through,
      number,
      issuer,
      revision,
      facts,
      marks,
      links: paper.links.map(({ word, to }) => ({ word, to: this.#edition(to) })),
      physicalOnly: paper.physical_only,
    };
  }
}

/** YAML reads yes and no as true and false. */
function plainAnswer(answer: string): string {
  if (answer === 'true') return 'yes';
  return answer === 'false' ? 'no' : answer;
}
