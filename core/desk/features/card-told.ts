import { type Asked, countingEdition } from '../../readiness/index.ts';
import type { FactValue } from '../../vocabulary/facts.ts';
import type { Question } from '../../vocabulary/practice.ts';
import { factInWords } from '../../vocabulary/said-facts.ts';
import type { ToldAnswer } from '../contract/answers.ts';

/** A fact of a paper as the card's question takes it; undefined where it can't be its answer. */
function asAnswer({ sort, choices }: Question, fact: FactValue): FactValue | undefined {
  if (sort !== 'choice') return fact.sort === sort ? fact : undefined;
  const said = fact.sort === 'text' || fact.sort === 'choice' ? fact.value.toLowerCase() : undefined;
  const choice = choices.find((each) => each.toLowerCase() === said);
  return choice === undefined ? undefined : { sort, value: choice };
}

/** As `answer` takes it: figures without their unit. */
function written(fact: FactValue): string {
  return 'value' in fact && typeof fact.value === 'number' && fact.sort !== 'money'
    ? String(fact.value)
    : factInWords(fact);
}

/**
 * What papers in hand say to a question of the record card, where it was not answered so: "House plans" count three
 * bedrooms. Facts and questions of one id mean the same. Only offered: the person answers.
 */
export function toldByPapers(question: Question, asked: Asked): readonly ToldAnswer[] {
  const given = Object.hasOwn(asked.lot.answers, question.id) ? asked.lot.answers[question.id] : undefined;
  const said = given === undefined || given.sort === "don't know yet" ? undefined : written(given);
  const told = new Map<string, ToldAnswer>();
  for (const { id: kind, title, facts, each } of Object.values(asked.practice.papers)) {
    if (each !== undefined || !Object.hasOwn(facts, question.id)) continue;
    const fact = countingEdition({ kind }, asked)?.facts[question.id];
    const answer = fact === undefined ? undefined : asAnswer(question, fact);
    if (answer === undefined || written(answer) === said) continue;
    const before = told.get(written(answer));
    const papers = [...(before?.papers ?? []), title];
    told.set(written(answer), { answer: written(answer), say: factInWords(answer), papers });
  }
  return [...told.values()];
}
