import {
  type Asked,
  currentEdition,
  type DutyReading,
  type EngagementCover,
  readCover,
  readDuties,
  readLapsed,
  readLapses,
  spanWords,
} from '../../readiness/index.ts';
import { addDays, type Day, dayInWords, earliest, isDay } from '../../vocabulary/days.ts';
import { type Finding, weights } from '../../vocabulary/finding.ts';
import type { PaperId, SubjectId } from '../../vocabulary/lot.ts';
import type { KindId } from '../../vocabulary/practice.ts';
import { ofNoRule } from '../../vocabulary/privacy.ts';
import { entryIn, kindTitle } from '../named.ts';
import { subjectTitle, titleFor } from './asked.ts';

/** A paper in hand that ends: what is wrong with that, its last good day, until when more time can be asked for. */
export interface Ahead {
  readonly finding: Finding;
  readonly through: Day;
  readonly askBy?: Day | undefined;
}

interface Ending {
  readonly kind: KindId;
  readonly subject: SubjectId | undefined;
  readonly through: Day;
  readonly weight: Finding['weight'];
  readonly why: string;
  readonly remedy: string;
  readonly edition?: string | undefined;
}

function endingFinding(asked: Asked, { kind, subject, through, weight, why, remedy, edition }: Ending): Finding {
  const title = titleFor(`"${kindTitle(asked.practice, kind)}"`, subjectTitle(asked.lot, subject));
  const rule = asked.practice.papers[kind];
  const paper = edition === undefined ? undefined : entryIn(asked.lot, edition)?.paper.id;
  return {
    weight,
    sort: 'lapsing',
    kind,
    subject,
    paper,
    edition,
    office: rule?.from,
    say: `${title} is good through ${dayInWords(through)} only.`,
    why,
    basis: rule?.basis ?? { on: 'common practice' },
    remedy: { say: remedy },
    final: false,
  };
}

/** A paper that has to stay alive, whether or not it is foreseen to last. */
function dutyAhead({ kind, subject, running, validity, findings, until }: DutyReading, asked: Asked): readonly Ahead[] {
  if (running === 'over' || validity?.good !== true || !isDay(validity.through)) return [];
  const { through, askBy } = validity;
  const edition = currentEdition({ kind, subject }, asked);
  const why = until === undefined ? '' : `It is needed until ${dayInWords(until)} or so.`;
  const remedy = 'Nothing yet, as far as can be foreseen.';
  const lasts: Ending = { kind, subject, through, weight: 'good to know', why, remedy, edition: edition?.id };
  const about = edition === undefined ? {} : { edition: edition.id, paper: edition.paper };
  const [first] = findings;
  const finding = first === undefined ? endingFinding(asked, lasts) : { ...about, ...first };
  return [{ finding, through, askBy }];
}

/** A firm that stays longer than its cover: it has to bring the next certificate before the last day. */
function coverAhead({ subject, lines, days }: EngagementCover, asked: Asked): readonly Ahead[] {
  const name = subject.firm ?? subject.title;
  return lines.flatMap(({ kind, gaps, spans, excused }) => {
    const next = gaps.find(({ from }) => from > asked.day);
    const span = spans.findLast(({ to }) => next !== undefined && to < next.from);
    if (next === undefined || span === undefined || excused !== undefined) return [];
    const why = `${name} is on site through ${days === undefined ? 'a day not noted' : dayInWords(days.to)}.`;
    const remedy = `Ask ${name} for the next one before ${dayInWords(next.from)}.`;
    const through = addDays(next.from, -1);
    const about = { kind, subject: subject.id, through, edition: span.edition };
    return [{ finding: endingFinding(asked, { ...about, weight: 'questioned', why, remedy }), through }];
  });
}

/** A paper that has come to its end, or is missing, while it is needed; its last good day where it had one. */
export interface Ended {
  readonly finding: Finding;
  readonly on?: Day | undefined;
}

/** Firms on site today whose cover is missing today: it has ended, bears no dates, or was never brought. */
export function uncoveredNow(asked: Asked): readonly Ended[] {
  const { day } = asked;
  return readCover(asked).flatMap(({ subject, lines }) =>
    lines.flatMap(({ kind, gaps, spans, undated, excused, applies }): Ended[] => {
      const gap = gaps.find(({ from, to }) => from <= day && day <= to);
      if (gap === undefined || excused !== undefined) return [];
      const ended = spans.findLast(({ to }) => to < day);
      const edition = ended?.edition ?? undated[0];
      const name = subject.firm ?? subject.title;
      const weight = applies === 'unknown' ? 'ask first' : 'questioned';
      const why = `${name} is on site, and nothing in hand covers ${spanWords(gap)}.`;
      const remedy = `Ask ${name} for it before they work on.`;
      const about = { kind, subject: subject.id, through: ended?.to ?? day, weight, why, remedy, edition } as const;
      const title = `"${kindTitle(asked.practice, kind)}" of ${name}`;
      if (ended !== undefined) {
        const say = `${title} ended on ${dayInWords(ended.to)}.`;
        return [{ finding: { ...endingFinding(asked, about), sort: 'lapsed', say }, on: ended.to }];
      }
      const later = spans.find(({ from }) => from > day);
      if (later !== undefined) {
        const say = `${title} begins on ${dayInWords(later.from)} only.`;
        return [
          { finding: { ...endingFinding(asked, { ...about, edition: later.edition }), sort: 'not issued yet', say } },
        ];
      }
      const say = edition === undefined ? `${title} is not in hand.` : `${title} bears no days of cover.`;
      const sort = edition === undefined ? 'missing' : 'date unknown';
      return [{ finding: { ...endingFinding(asked, about), sort, say } }];
    }),
  );
}

/** The day something has to be done about it: the last to ask for more time, or the last good one. */
export function dueBy({ through, askBy }: Pick<Ahead, 'through' | 'askBy'>): Day {
  return askBy === undefined ? through : earliest(through, askBy);
}

/** One paper of one firm, as all that tells of its end has it; of those no rule knows, each is one of its own. */
export function paperKey({
  kind,
  subject,
  paper,
}: {
  readonly kind?: KindId | undefined;
  readonly subject?: SubjectId | undefined;
  readonly paper?: PaperId | undefined;
}): string {
  return `${kind ?? ''} ${subject ?? ''} ${kind === ofNoRule ? (paper ?? '') : ''}`;
}

function isHeavier(a: Finding, b: Finding): boolean {
  return weights.indexOf(a.weight) < weights.indexOf(b.weight);
}

/**
 * What lapses within so many days, each paper once and as it weighs most, what is due first before the rest. The one source of the slip
 * for today and of the list of lapses.
 */
export function aheadOf(asked: Asked, within: number): readonly Ahead[] {
  const until = addDays(asked.day, within);
  const all: readonly Ahead[] = [
    ...readDuties(asked).flatMap((duty) => dutyAhead(duty, asked)),
    ...readCover(asked).flatMap((cover) => coverAhead(cover, asked)),
    ...readLapses(asked, within).map(({ finding, by, askBy }) => ({ finding, through: by, askBy })),
  ];
  const once = new Map<string, Ahead>();
  for (const each of all) {
    if (each.through < asked.day || dueBy(each) > until) continue;
    const key = paperKey(each.finding);
    const told = once.get(key);
    if (told === undefined || isHeavier(each.finding, told.finding)) once.set(key, each);
  }
  return [...once.values()].toSorted((a, b) => (dueBy(a) < dueBy(b) ? -1 : dueBy(a) > dueBy(b) ? 1 : 0));
}

/** A paper that has to be alive today and has ended. */
function dutyEnded({ running, validity, findings }: DutyReading): readonly Ended[] {
  if (running === 'over' || validity?.good !== false) return [];
  const on = isDay(validity.through) ? validity.through : undefined;
  return findings.map((finding) => ({ finding, on }));
}

/**
 * What has lapsed, was not replaced and is still needed: by an errand ahead, to stay alive, or on a firm that is on
 * site. Each paper once and as it weighs most, until it is renewed. The one source, with `aheadOf`, of the slip for
 * today and of the list of lapses.
 */
export function lapsedNow(asked: Asked): readonly Ended[] {
  const all = [
    ...readLapsed(asked),
    ...readDuties(asked).flatMap(dutyEnded),
    ...uncoveredNow(asked).filter(({ on }) => on !== undefined),
  ];
  const once = new Map<string, Ended>();
  for (const each of all) {
    const key = paperKey(each.finding);
    const told = once.get(key);
    if (told === undefined || isHeavier(each.finding, told.finding)) once.set(key, each);
  }
  return [...once.values()];
}
