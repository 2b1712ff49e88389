import { readHolds } from '../../readiness/index.ts';
import { type Day, dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Question } from '../../vocabulary/practice.ts';
import { readAnswer } from '../../vocabulary/said-facts.ts';
import { type AtLot, onLot } from '../context.ts';
import type { AskedQuestion } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { known } from '../named.ts';
import { lastBackup } from './backup-memory.ts';
import { toldByPapers } from './card-told.ts';

/** The id of the newest act. */
export function lastAct(at: AtLot): string {
  return String(at.lot.acts(1)[0]?.id ?? '');
}

/** Runs one undoable act and names it for the history. */
export function acted(at: AtLot, title: string, change: () => void): { readonly act: string } {
  at.lot.act(title, change);
  return { act: lastAct(at) };
}

/** The lot's record card: answers, names, firms, events. */
export const readLot = onLot(requests['read-lot'], (_input, { lot, day }) => {
  const view = lot.view();
  const practice = lot.practice();
  const questions = Object.values(practice.questions).map((question): AskedQuestion => {
    const { id, ask, why, where, choices, first, sort } = question;
    const told = toldByPapers(question, { practice, lot: view, day });
    return { id, ask, why, where, choices, first, sort, answer: view.answers[id], told };
  });
  return {
    title: view.title,
    target: view.target,
    practice: practice.title,
    backup: lastBackup({ lot }),
    questions,
    identities: view.identities,
    subjects: view.subjects,
    events: view.events.map((event) => ({ ...event, title: practice.events[event.event]?.title ?? event.event })),
  };
});

/** A choice may be written in any case; everything else is read by its sort. */
function answerTo(question: Question, said: string): ReturnType<typeof readAnswer> {
  const answer = readAnswer(question.sort, said, question.ask);
  if (answer.sort !== 'choice') return answer;
  const choice = question.choices.find((each) => each.toLowerCase() === answer.value.toLowerCase());
  return {
    sort: 'choice',
    value: choice ?? known(Object.fromEntries(question.choices.map((c) => [c, c])), said, 'answer'),
  };
}

export const answer = onLot(requests.answer, ({ question: id, answer: said }, at) => {
  const question = known(at.lot.practice().questions, id, 'question');
  const read = answerTo(question, said);
  return acted(at, `Answered: ${question.ask} ${said}`, () => at.lot.answer(id, read));
});

export const target = onLot(requests.target, ({ day }, at) => {
  if (day < at.day) throw tooEarly('The day to move in', day, 'Name a day that is still to come.');
  return acted(at, `Set the day to move in: ${dayInWords(day)}`, () => at.lot.setTarget(day));
});

function tooEarly(what: string, day: Day, next: string): LotfileError {
  return new LotfileError('wrong use', `${what} can't be ${dayInWords(day)}.`, { about: day, next });
}

export const event = onLot(requests.event, ({ event: id, day, note }, at) => {
  const { lot } = at;
  const { title } = known(lot.practice().events, id, 'event');
  if (day > at.day) {
    throw tooEarly(`"${title}"`, day, `An event is noted when it has happened; today is ${dayInWords(at.day)}.`);
  }
  const { act } = acted(at, `Noted: ${title}, ${dayInWords(day)}`, () => lot.noteEvent({ event: id, day, note }));
  const holds = readHolds({ practice: lot.practice(), lot: lot.view(), day: at.day });
  const findings = holds.filter((hold) => hold.event === id).flatMap((hold) => hold.findings);
  return { act, findings, wouldBeRefused: findings.some(({ weight }) => weight === 'refused') };
});

export const identity = onLot(requests.identity, (named, at) =>
  acted(at, `Noted the ${named.sort}: ${named.text}`, () => at.lot.addIdentity(named)),
);

export const same = onLot(requests.same, (pair, at) =>
  acted(at, `Confirmed the same ${pair.sort}: ${pair.a} = ${pair.b}`, () => at.lot.confirmSame(pair)),
);

export const engage = onLot(requests.engage, ({ firm, trade, from, to }, at) => {
  if (from !== undefined && to !== undefined && to < from) {
    throw tooEarly(
      `The last day of ${firm}`,
      to,
      `It began on ${dayInWords(from)}: see which of the two days is right.`,
    );
  }
  const title = `${firm}, ${trade}`;
  let subject = '';
  const { act } = acted(at, `Engaged ${title}`, () => {
    subject = at.lot.addSubject({ sort: 'engagement', title, firm, trade, from, to });
  });
  return { act, subject };
});
