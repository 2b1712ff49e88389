import type { Day } from '../vocabulary/days.ts';
import type { Answer, Truth } from '../vocabulary/facts.ts';
import type { LotView } from '../vocabulary/lot.ts';
import type { Condition, EventId, KindId, QuestionId } from '../vocabulary/practice.ts';
import { decision, isThere } from './standing.ts';

/** Where a condition finds its facts. */
export interface TruthSource {
  readonly answer: (question: QuestionId) => Answer | undefined;
  readonly happened: (event: EventId) => boolean;
  readonly held: (kind: KindId) => boolean;
}

/** Kleene's strong "and": one false settles it, otherwise one unknown leaves it open. */
export function allOf(truths: readonly Truth[]): Truth {
  if (truths.includes(false)) return false;
  return truths.includes('unknown') ? 'unknown' : true;
}

/** Kleene's strong "or". */
export function anyOf(truths: readonly Truth[]): Truth {
  if (truths.includes(true)) return true;
  return truths.includes('unknown') ? 'unknown' : false;
}

export function not(truth: Truth): Truth {
  return truth === 'unknown' ? 'unknown' : !truth;
}

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

function matches(answer: Answer | undefined, value: string | number | boolean): Truth {
  if (answer === undefined || answer.sort === "don't know yet") return 'unknown';
  if (answer.sort === 'elevation') return answer.value.feet === value;
  if (typeof answer.value === 'boolean') return value === answer.value || value === (answer.value ? 'yes' : 'no');
  if (typeof answer.value === 'string') return plain(answer.value) === plain(String(value));
  return answer.value === value;
}

function compared(answer: Answer | undefined, op: 'over' | 'under', value: number): Truth {
  if (answer === undefined || answer.sort === "don't know yet") return 'unknown';
  const amount = answer.sort === 'elevation' ? answer.value.feet : answer.value;
  if (typeof amount !== 'number') return 'unknown';
  return op === 'over' ? amount > value : amount < value;
}

export function evaluate(condition: Condition, source: TruthSource): Truth {
  switch (condition.op) {
    case 'is':
      return anyOf(condition.values.map((value) => matches(source.answer(condition.question), value)));
    case 'over':
    case 'under':
      return compared(source.answer(condition.question), condition.op, condition.value);
    case 'happened':
      return source.happened(condition.event);
    case 'held':
      return source.held(condition.kind);
    case 'and':
      return allOf(condition.of.map((part) => evaluate(part, source)));
    case 'or':
      return anyOf(condition.of.map((part) => evaluate(part, source)));
    case 'not':
      return not(evaluate(condition.of, source));
  }
}

/** The questions a condition asks, in its own order. */
export function questionsOf(condition: Condition): readonly QuestionId[] {
  switch (condition.op) {
    case 'is':
    case 'over':
    case 'under':
      return [condition.question];
    case 'happened':
    case 'held':
      return [];
    case 'and':
    case 'or':
      return condition.of.flatMap(questionsOf);
    case 'not':
      return questionsOf(condition.of);
  }
}

/**
 * Three-valued truth of a condition for a lot. An unanswered question makes it 'unknown', never false.
 * @param day where given, events, papers and standings after it don't count.
 */
export function truthOf(condition: Condition, lot: LotView, day?: Day): Truth {
  return evaluate(condition, {
    answer: (question) => (Object.hasOwn(lot.answers, question) ? lot.answers[question] : undefined),
    happened: (event) => lot.events.some((noted) => noted.event === event && (day === undefined || noted.day <= day)),
    held: (kind) =>
      lot.papers.some(
        (paper) =>
          paper.kind === kind &&
          paper.editions.some((edition) => isThere(edition, day) && decision(edition, day) !== 'turned down'),
      ),
  });
}
