import type { Day } from '../vocabulary/days.ts';
import type { Finding, PaperState, Validity } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Duty, KindId } from '../vocabulary/practice.ts';
import { eventTitle } from './befores.ts';
import { plusDays } from './calendar.ts';
import { appliesAt } from './condition-at.ts';
import { currentEntry, poolOf } from './current.ts';
import { paperTitle } from './need-case.ts';
import { lapsingDays, paperStateOf } from './paper-state.ts';
import { lighter, type Problem, weightOf } from './problem.ts';
import { findingOf } from './remedy.ts';
import { type Asked, happenedOn, indexLot, kindOf, remembered, type Standpoint } from './standpoint.ts';
import { validityAt, whyOf } from './validity.ts';
import { expectedDay } from './way/read-way.ts';
import { dayWords, sentence, weekdayWords } from './words.ts';

/** A paper that must stay alive from one event to another, as it stands. */
export interface DutyReading {
  readonly duty: string;
  readonly kind: KindId;
  readonly subject?: SubjectId | undefined;
  /** 'unknown' where the duty hangs on an unanswered question. */
  readonly applies: true | 'unknown';
  readonly running: 'not yet' | 'running' | 'over';
  /** When it is expected to end. */
  readonly until?: Day | undefined;
  readonly state: PaperState;
  readonly validity?: Validity | undefined;
  readonly findings: readonly Finding[];
}

interface DutyCase {
  readonly at: Standpoint;
  readonly duty: Duty;
  readonly subject: SubjectId | undefined;
  readonly applies: true | 'unknown';
  readonly until: Day;
}

function dutyProblem(
  given: DutyCase,
  about: { readonly sort: 'duty at risk' | 'ask to extend'; readonly mendKind: KindId },
  say: string,
): Problem {
  const { at, duty, subject } = given;
  const weight = about.sort === 'duty at risk' ? weightOf(duty.basis) : 'questioned';
  return {
    weight: given.applies === true ? weight : lighter(weight, 'ask first'),
    sort: about.sort,
    kind: duty.kind,
    subject,
    office: kindOf(at, duty.kind)?.from,
    say,
    why: sentence(duty.say),
    basis: duty.basis,
    mend: { do: 'get', kind: about.mendKind, subject },
    final: false,
  };
}

function endsOn(validity: Validity): Day | undefined {
  const { through } = validity;
  return through === 'for good' || through === 'unknown' || through === 'ended' ? undefined : through;
}

/** What is wrong while the paper is in hand: it has ended, nobody knows, or it will end too soon. */
function problemsInHand(given: DutyCase, validity: Validity): readonly Problem[] {
  const { at, duty, subject, until } = given;
  const title = paperTitle(at, duty.kind, subject);
  const to = `"${eventTitle(at, duty.to)}"`;
  if (validity.good === false) {
    return [
      dutyProblem(
        given,
        { sort: 'duty at risk', mendKind: duty.kind },
        `${title} has ended (${whyOf(validity)}), and has to stay alive until ${to}.`,
      ),
    ];
  }
  if (validity.good === 'unknown') {
    const problem = dutyProblem(
      given,
      { sort: 'duty at risk', mendKind: duty.kind },
      `${title} has to stay alive until ${to}, and nobody can say how long it is good.`,
    );
    return [{ ...problem, weight: 'ask first', mend: { do: 'say', say: 'Look at the paper and enter the date.' } }];
  }
  const through = endsOn(validity);
  if (through === undefined || through >= until) return [];
  const ask =
    validity.askBy === undefined ? '' : ` The last day to ask for an extension is ${weekdayWords(validity.askBy)}.`;
  const say = `${title} lapses after ${dayWords(through)}, and ${to} is not to be expected before ${dayWords(until)}.${ask}`;
  const extension = validity.askBy === undefined ? undefined : kindOf(at, duty.kind)?.extension?.by;
  const risk = dutyProblem(given, { sort: 'duty at risk', mendKind: extension ?? duty.kind }, say);
  if (validity.askBy === undefined || extension === undefined || validity.askBy > plusDays(at.day, lapsingDays))
    return [risk];
  return [
    risk,
    dutyProblem(
      given,
      { sort: 'ask to extend', mendKind: extension },
      `Ask for an extension of ${title} by ${weekdayWords(validity.askBy)}.`,
    ),
  ];
}

function problemsOf(
  given: DutyCase,
  running: DutyReading['running'],
  validity: Validity | undefined,
): readonly Problem[] {
  if (running === 'over') return [];
  if (validity !== undefined) return problemsInHand(given, validity);
  if (running === 'not yet') return [];
  const { at, duty, subject } = given;
  return [
    dutyProblem(
      given,
      { sort: 'duty at risk', mendKind: duty.kind },
      `${paperTitle(at, duty.kind, subject)} has to be alive until "${eventTitle(at, duty.to)}", and it is not in hand.`,
    ),
  ];
}

function runningAt(at: Standpoint, duty: Duty): DutyReading['running'] {
  if (happenedOn(at, duty.to) !== undefined) return 'over';
  return duty.from === undefined || happenedOn(at, duty.from) !== undefined ? 'running' : 'not yet';
}

function readDuty(at: Standpoint, duty: Duty, subject: SubjectId | undefined): DutyReading | undefined {
  const applies = appliesAt(at, duty.when);
  if (applies === false) return undefined;
  const entry = currentEntry(at, { kind: duty.kind, subject });
  const begun = duty.from !== undefined || entry !== undefined || poolOf(at, duty.kind, subject).length > 0;
  const running = begun ? runningAt(at, duty) : 'not yet';
  const until = running === 'over' ? undefined : expectedDay(at, duty.to);
  const validity = entry === undefined ? undefined : validityAt(at, entry);
  const given = { at, duty, subject, applies, until: until ?? at.day };
  return {
    duty: duty.id,
    kind: duty.kind,
    subject,
    applies,
    running,
    until,
    state: paperStateOf(at, { kind: duty.kind, subject }),
    validity,
    findings: problemsOf(given, running, validity).map((problem) => findingOf(at, problem)),
  };
}

function subjectsOf(at: Standpoint, duty: Duty): readonly (SubjectId | undefined)[] {
  const each = kindOf(at, duty.kind)?.each;
  return each === undefined ? [undefined] : (at.index.subjectsOf.get(each) ?? []).map((subject) => subject.id);
}

const dutiesOnce = remembered((at: Standpoint, _key: string): readonly DutyReading[] =>
  Object.values(at.practice.duties).flatMap((duty) =>
    subjectsOf(at, duty).flatMap((subject) => readDuty(at, duty, subject) ?? []),
  ),
);

export function dutiesAt(at: Standpoint): readonly DutyReading[] {
  return dutiesOnce(at, '');
}

/** Every duty that applies or may apply: whether it runs, until when, and whether its paper lasts that long. */
export function readDuties(asked: Asked): readonly DutyReading[] {
  return dutiesAt(indexLot(asked));
}
