import type { Question } from '../../vocabulary/practice.ts';
import { readAnswer } from '../../vocabulary/said-facts.ts';
import { type AtLot, onLot } from '../context.ts';
import type { AskedQuestion } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { known } from '../named.ts';

/** Runs one undoable act and names it for the history. */
export function acted(at: AtLot, title: string, change: () => void): { readonly act: string } {
  at.lot.act(title, change);
  return { act: String(at.lot.acts(1)[0]?.id ?? '') };
}

/** The lot's record card: answers, names, firms, events. */
export const readLot = onLot(requests['read-lot'], (_input, { lot }) => {
  const view = lot.view();
  const practice = lot.practice();
  const questions = Object.values(practice.questions).map((question): AskedQuestion => {
    const { id, ask, why, where, choices, first } = question;
    return { id, ask, why, where, choices, first, answer: view.answers[id] };
  });
  return {
    title: view.title,
    target: view.target,
    practice: practice.title,
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
  const { questions } = at.lot.practice();
  const question = questions[known(questions, id, 'question')];
  if (question === undefined) throw new Error(`question ${id} vanished`);
  const read = answerTo(question, said);
  return acted(at, `Answered: ${question.ask} ${said}`, () => at.lot.answer(id, read));
});

export const target = onLot(requests.target, ({ day }, at) =>
  acted(at, `Set the day to move in: ${day}`, () => at.lot.setTarget(day)),
);

export const event = onLot(requests.event, ({ event: id, day, note }, at) => {
  const { events } = at.lot.practice();
  known(events, id, 'event');
  return acted(at, `Noted: ${events[id]?.title ?? id}, ${day}`, () => at.lot.noteEvent({ event: id, day, note }));
});

export const identity = onLot(requests.identity, (named, at) =>
  acted(at, `Noted the ${named.sort}: ${named.text}`, () => at.lot.addIdentity(named)),
);

export const same = onLot(requests.same, (pair, at) =>
  acted(at, `Confirmed the same ${pair.sort}: ${pair.a} = ${pair.b}`, () => at.lot.confirmSame(pair)),
);

export const engage = onLot(requests.engage, ({ firm, trade, from, to }, at) => {
  const title = `${firm} (${trade})`;
  let subject = '';
  const { act } = acted(at, `Engaged ${title}`, () => {
    subject = at.lot.addSubject({ sort: 'engagement', title, firm, trade, from, to });
  });
  return { act, subject };
});
