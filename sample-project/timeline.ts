import { fileURLToPath } from 'node:url';
import type { Desk } from '../core/desk/desk.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { LotfileError } from '../core/vocabulary/errors.ts';
import { paperFile, type Story, type StoryPaper } from './story-model.ts';

/** Something of the story that happens on a day. Within a day: words, papers, visits, then events. */
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
  #toldTo: Day = '0000-01-01';

  constructor(desk: Desk, lot: string, story: Story) {
    this.#desk = desk;
    this.#lot = lot;
    this.#story = story;
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
    const { words, papers, visits, events } = this.#story;
    const desk = this.#desk;
    const lot = this.#lot;
    const days = [...new Set(papers.map(({ from_day }) => from_day))];
    return [
      ...words.map(
        ({ target, value, who, day, note }): Moment => ({
          day,
          rank: 0,
          run: async () =>
            void (await desk.ask('clerk-said', { rule: target, value, who, day, note }, { lot, on: day })),
        }),
      ),
      ...days.map(
        (day): Moment => ({
          day,
          rank: 1,
          run: () =>
            this.#keep(
              papers.filter((paper) => paper.from_day === day),
              day,
            ),
        }),
      ),
      ...papers.flatMap(({ key, standings }) =>
        standings.map(
          ({ office, word, day, note }): Moment => ({
            day,
            rank: 2,
            run: async () => {
              const edition = this.#edition(key);
              await desk.ask('standing', { edition, office, word, day, note }, { lot, on: day });
            },
          }),
        ),
      ),
      ...visits.flatMap((visit) => this.#visits(visit)),
      ...events.map(
        ({ event, day, note }): Moment => ({
          day,
          rank: 4,
          run: async () => void (await desk.ask('event', { event, day, note }, { lot, on: day })),
        }),
      ),
    ];
  }

  #visits({ errand, day, settled, outcome, note }: Story['visits'][number]): Moment[] {
    const at = (on: Day, state: 'left with them' | 'settled'): Moment => ({
      day: on,
      rank: 3,
      run: async () => {
        const said = state === 'settled' ? { outcome, note } : { note };
        await this.#desk.ask('visit', { errand, day: on, state, ...said }, { lot: this.#lot, on });
      },
    });
    if (settled === undefined || settled === day)
      return [at(day, settled === undefined ? 'left with them' : 'settled')];
    return [at(day, 'left with them'), at(settled, 'settled')];
  }

  #edition(key: string): string {
    const edition = this.#editions.get(key);
    if (edition === undefined) throw new LotfileError('internal', `The story names "${key}" before it came in.`);
    return edition;
  }

  async #keep(papers: readonly StoryPaper[], day: Day): Promise<void> {
    // One by one: a paper may link to one that came in on the same day.
    for (const paper of papers) {
      const { key, kind, files, title, subject, issued, effective, number, issuer, revision, facts, marks } = paper;
      const { kept, refused } = await this.#desk.ask(
        'keep',
        {
          papers: [
            {
              files: files.map((name) => this.#desk.tickets.offer(fileURLToPath(paperFile(name)), name)),
              kind,
              title,
              subject: subject === undefined ? undefined : this.#subjects.get(subject),
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
            },
          ],
        },
        { lot: this.#lot, on: day },
      );
      const [done] = kept;
      if (done === undefined) throw LotfileError.from(refused[0]?.error);
      this.#editions.set(key, done.edition);
    }
  }
}

/** YAML reads yes and no as true and false. */
function plainAnswer(answer: string): string {
  if (answer === 'true') return 'yes';
  return answer === 'false' ? 'no' : answer;
}
