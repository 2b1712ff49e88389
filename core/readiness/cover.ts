import { addDays, type Day, daysBetween, earliest, latest } from '../vocabulary/days.ts';
import type { EditionId, Subject } from '../vocabulary/lot.ts';
import type { Agreement, KindId, Need, PaperKind } from '../vocabulary/practice.ts';
import { conditionAt } from './condition-at.ts';
import { poolOf } from './current.ts';
import type { Entry } from './lot-index.ts';
import { isThere } from './standing.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { factOf } from './whole-edition.ts';
import { dayWords } from './words.ts';

/** Days from and to, both inclusive. */
export interface DaySpan {
  readonly from: Day;
  readonly to: Day;
}

export interface CoverSpan extends DaySpan {
  readonly edition: EditionId;
}

/** One thing a firm has to have on every day it is on site: a licence, a line of its insurance. */
export interface CoverLine {
  /** The kind to ask for, and the kinds that may stand for it. */
  readonly kind: KindId;
  readonly title: string;
  /** `unknown` where it hangs on a question nobody answered. */
  readonly applies: true | 'unknown';
  readonly spans: readonly CoverSpan[];
  /** Papers that are in hand and don't say from when to when. */
  readonly undated: readonly EditionId[];
  /** The owner noted that this firm needs none, and why. */
  readonly excused: string | undefined;
  /** Days on site that nothing in hand covers. */
  readonly gaps: readonly DaySpan[];
  /** The last day on which it holds without a break, counted from the day asked about; undefined where it doesn't hold. */
  readonly through: Day | 'for good' | undefined;
}

export interface EngagementCover {
  readonly subject: Subject;
  /** Undefined where the first day on site is not noted: then nobody can say what is not covered. */
  readonly days: DaySpan | undefined;
  readonly onSite: boolean;
  readonly lines: readonly CoverLine[];
}

/** No paper speaks of days beyond it; stands for "for good". */
const never: Day = '9999-12-31';

interface Wanted {
  readonly kinds: readonly KindId[];
  readonly applies: true | 'unknown';
}

/** What the agreements call the first and the last day of cover on a kind. */
function daysAgreed(at: Standpoint, kind: KindId): readonly (readonly [from: string, to: string])[] {
  const agreed = at.rules.agreementsOn.get(kind) ?? [];
  return agreed.flatMap(({ verb, terms }: Agreement) => {
    const [from, to] = terms;
    const both = from?.of === 'paper' && to?.of === 'paper' && from.kind === kind && to.kind === kind;
    return verb === 'covers_days' && both ? [[from.fact, to.fact] as const] : [];
  });
}

function runsOut(kind: PaperKind): boolean {
  return kind.clocks.some(({ sort }) => sort === 'stated' || sort === 'lasts');
}

function needsOf(at: Standpoint): readonly Need[] {
  return at.rules.errands.flatMap(({ needs }) => needs.filter(({ each }) => each === 'engagement'));
}

/** What is asked of every firm, by what the errands need; papers that don't run out are no cover. */
function wantedOf(at: Standpoint): readonly Wanted[] {
  const wanted = new Map<KindId, Wanted>();
  for (const { kinds, when } of needsOf(at)) {
    const [first] = kinds;
    const rule = first === undefined ? undefined : kindOf(at, first);
    if (first === undefined || rule === undefined) continue;
    if (!runsOut(rule) && daysAgreed(at, first).length === 0) continue;
    const truth = when === undefined ? true : conditionAt(at, when);
    if (truth === false) continue;
    const known = wanted.get(first);
    const applies = truth === true || known?.applies === true ? true : 'unknown';
    wanted.set(first, { kinds: [...new Set([...(known?.kinds ?? []), ...kinds])], applies });
  }
  return [...wanted.values()];
}

function dayFact(at: Standpoint, entry: Entry, fact: string): Day | undefined {
  const value = factOf(at, entry, fact);
  return value?.sort === 'day' ? value.value : undefined;
}

/** A firm's cover ends the day before an office or the insurer took it back. */
function cutOff(entry: Entry): Day | undefined {
  const ends = entry.edition.standings.filter(({ word }) => word === 'revoked' || word === 'refused');
  return ends.length === 0 ? undefined : ends.map(({ day }) => day).reduce(earliest);
}

/** From when to when an edition covers; undefined where it doesn't say. */
function spanOf(at: Standpoint, entry: Entry, facts: readonly [string, string] | undefined): CoverSpan | undefined {
  const { id, effective, issued, received } = entry.edition;
  const said = facts === undefined ? undefined : dayFact(at, entry, facts[0]);
  const from = said ?? effective ?? issued ?? received;
  const through = facts === undefined ? undefined : dayFact(at, entry, facts[1]);
  const clock = through ?? validityAt(at, entry).through;
  if (clock === 'unknown') return undefined;
  const end = clock === 'for good' ? never : clock === 'ended' ? addDays(cutOff(entry) ?? from, -1) : clock;
  const cut = cutOff(entry);
  return { from, to: cut === undefined ? end : earliest(end, addDays(cut, -1)), edition: id };
}

/** What is left of the days when the spans are taken out, in order. */
export function uncovered(days: DaySpan, spans: readonly DaySpan[]): readonly DaySpan[] {
  const gaps: DaySpan[] = [];
  let next = days.from;
  for (const span of spans.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))) {
    if (span.to < next) continue;
    if (span.from > days.to) break;
    if (span.from > next) gaps.push({ from: next, to: addDays(span.from, -1) });
    if (span.to >= days.to) return gaps;
    next = latest(next, addDays(span.to, 1));
  }
  return next <= days.to ? [...gaps, { from: next, to: days.to }] : gaps;
}

function heldThrough(day: Day, spans: readonly DaySpan[]): Day | 'for good' | undefined {
  const [gap] = uncovered({ from: day, to: never }, spans);
  if (gap === undefined) return 'for good';
  return gap.from === day ? undefined : addDays(gap.from, -1);
}

function excuseFor(at: Standpoint, kind: KindId, subject: Subject): string | undefined {
  return at.index.papersOf.get(kind)?.find((paper) => paper.subject === subject.id)?.notApplicable;
}

function linesOf(at: Standpoint, subject: Subject, days: DaySpan | undefined): readonly CoverLine[] {
  return wantedOf(at).flatMap(({ kinds, applies }) => {
    const [kind = ''] = kinds;
    const agreed = daysAgreed(at, kind);
    const entries = kinds.flatMap((each) =>
      poolOf(at, each, subject.id).filter(({ edition }) => isThere(edition, at.day) && edition.readable),
    );
    const title = kindOf(at, kind)?.title ?? kind;
    const excused = kinds.map((each) => excuseFor(at, each, subject)).find((reason) => reason !== undefined);
    return (agreed.length === 0 ? [undefined] : agreed).map((facts, n): CoverLine => {
      const found = entries.map((entry) => ({
        entry,
        span: spanOf(at, entry, entry.paper.kind === kind ? facts : undefined),
      }));
      const spans = found.flatMap(({ span }) => (span === undefined || span.to < span.from ? [] : [span]));
      return {
        kind,
        title: agreed.length > 1 ? `${title}, line ${n + 1}` : title,
        applies,
        spans: spans.toSorted((a, b) => (a.from < b.from ? -1 : 1)),
        undated: found.flatMap(({ entry, span }) => (span === undefined ? [entry.edition.id] : [])),
        excused,
        gaps: days === undefined || excused !== undefined ? [] : uncovered(days, spans),
        through: heldThrough(at.day, spans),
      };
    });
  });
}

/** The days a firm is on site; while no end is noted, through the day asked about. */
function daysOnSite(subject: Subject, day: Day): DaySpan | undefined {
  const { from, to } = subject;
  return from === undefined ? undefined : { from, to: to ?? latest(from, day) };
}

/**
 * Every firm on the job with what it has to show for each day it is on site (licence, lines of insurance), and the
 * days that nothing in hand covers. What is asked of a firm is read off the practice: needs per engagement whose
 * papers run out. A certificate shows what was insured when it was written; it is not cover.
 */
export function readCover(asked: Asked): readonly EngagementCover[] {
  const at = indexLot(asked);
  return (at.index.subjectsOf.get('engagement') ?? []).map((subject) => {
    const days = daysOnSite(subject, at.day);
    const onSite = days !== undefined && days.from <= at.day && (subject.to === undefined || subject.to >= at.day);
    return { subject, days, onSite, lines: linesOf(at, subject, days) };
  });
}

/** "2 Feb 2027 through 26 Feb 2027, 25 days", "2 Feb 2027". */
export function spanWords({ from, to }: DaySpan): string {
  if (from === to) return dayWords(from);
  return `${dayWords(from)} through ${dayWords(to)}, ${daysBetween(from, to) + 1} days`;
}
