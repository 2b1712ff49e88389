import { parseMoney } from '../vocabulary/money.ts';
import { type Agreement, type Term, type Verb, verbs } from '../vocabulary/practice.ts';
import { Fields } from './fields.ts';
import { didYouMean } from './problems.ts';
import { readBasis } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import type { Rule } from './read-small-rules.ts';
import { exists, type Scope } from './scope.ts';
import { itemsOf } from './values.ts';
import type { ScalarTree } from './yaml-tree.ts';

/** How many terms each verb takes. */
const counts: Readonly<Record<Verb, { readonly least: number; readonly most: number; readonly say: string }>> = {
  same: { least: 2, most: 40, say: 'at least two things' },
  at_most: { least: 2, most: 40, say: 'at least two things' },
  at_least: { least: 2, most: 40, say: 'at least two things' },
  not_before: { least: 2, most: 2, say: 'two days' },
  covers_days: { least: 2, most: 4, say: 'two days, or four' },
  one_of: { least: 2, most: 40, say: 'one thing and what it may be' },
};

function readTerm(item: ScalarTree, scope: Scope): Term | undefined {
  if (typeof item.value === 'number') return { of: 'value', value: item.value };
  const [head = '', tail = '', more] = item.text.split('.');
  const dotted = /^[a-z][a-z0-9_-]*\.[a-z][a-z0-9_-]*$/.test(item.text);
  if (!dotted || more !== undefined) return { of: 'value', value: parseMoney(item.text) ?? item.text };
  if (head === 'lot') return exists(scope, 'question', tail, item.at) ? { of: 'lot', question: tail } : undefined;
  if (head === 'figure') return readFigure(tail, item, scope);
  if (!exists(scope, 'kind', head, item.at)) return undefined;
  const facts = scope.facts.get(head) ?? new Set();
  if (facts.has(tail)) return { of: 'paper', kind: head, fact: tail };
  scope.problems.add(item.at, `The paper "${head}" carries no fact "${tail}"${didYouMean(tail, facts)}`);
  return undefined;
}

function readFigure(name: string, item: ScalarTree, scope: Scope): Term | undefined {
  if (scope.figures === undefined || scope.figures.has(name)) return { of: 'figure', figure: name };
  scope.problems.add(item.at, `There is no figure "${name}"${didYouMean(name, scope.figures)}`);
  return undefined;
}

/** The one verb of an agreement; its absence or a second one is a mistake. */
function verbOf(fields: Fields): Verb | undefined {
  const said = verbs.filter((verb) => fields.has(verb));
  if (said.length === 1) return said[0];
  const sentence =
    said.length === 0 ? `has no verb: say one of ${verbs.join(', ')}` : `says ${said.join(' and ')}: keep one verb`;
  fields.scope.problems.add(fields.at, `${fields.about} ${sentence}.`);
  return undefined;
}

export function readAgreement({ id, tree, at }: Rule, scope: Scope): Agreement {
  const fields = new Fields(scope, tree, { name: `agreement "${id}"`, at });
  const verb = verbOf(fields);
  const said = verbs.map((one) => fields.get(one)).find((one) => one !== undefined);
  const items = said === undefined ? [] : itemsOf(said, `"${verb ?? 'the verb'}" of agreement "${id}"`, scope.problems);
  const terms = items.flatMap((item) => readTerm(item, scope) ?? []);
  const count = verb === undefined ? undefined : counts[verb];
  const fits =
    count === undefined ||
    (items.length >= count.least && items.length <= count.most && !(verb === 'covers_days' && items.length === 3));
  if (!fits)
    scope.problems.add(
      said?.at ?? at,
      `"${verb}" of agreement "${id}" compares ${count?.say}; here stand ${items.length}.`,
    );
  const agreement: Agreement = {
    id,
    say: fields.needed('say'),
    verb: verb ?? 'same',
    terms,
    when: readWhen(fields),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return agreement;
}

/**
 * "All of these are the same" said of many papers is judged pair by pair against the first, so that two papers
 * in hand are compared before the others have come. The first pair keeps the id; the others add their kind to it.
 */
export function inPairs(agreement: Agreement): readonly Agreement[] {
  const [hub, first, ...others] = agreement.terms;
  if (agreement.verb !== 'same' || hub === undefined || first === undefined) return [agreement];
  const pair = (term: Term, id: string): Agreement => ({ ...agreement, id, terms: [hub, term] });
  return [pair(first, agreement.id), ...others.map((term) => pair(term, `${agreement.id}-${termName(term)}`))];
}

function termName(term: Term): string {
  switch (term.of) {
    case 'paper':
      return term.kind;
    case 'lot':
      return term.question;
    case 'figure':
      return term.figure;
    case 'value':
      return String(term.value);
  }
}
