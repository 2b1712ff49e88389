import { type FormSource, firmDetails, officeDetails, paperDetails } from '../vocabulary/forms.ts';
import { didYouMean } from './problems.ts';
import { exists, type Scope } from './scope.ts';
import type { ScalarTree } from './yaml-tree.ts';

/** What a source may begin with, for sentences. */
const ways =
  'owner, owner 1, place, parcel, firm, lot.question, paper.fact, paper.number, figure.name, office.id.phone, event.id, or {words: ...}';

function oneOf<T extends string>(words: readonly T[], said: string): T | undefined {
  return words.find((word) => word === said);
}

function plainSource(text: string): FormSource | undefined {
  const owner = /^owner(?: ([1-9]))?$/.exec(text);
  if (owner !== null) return { of: 'owner', ...(owner[1] === undefined ? {} : { which: Number(owner[1]) }) };
  if (text === 'place' || text === 'parcel') return { of: text };
  const firm = oneOf(firmDetails, text === 'firm' ? text : text.replace(/^firm\./, ''));
  return firm !== undefined && (text === 'firm' || text.startsWith('firm.')) ? { of: 'firm', detail: firm } : undefined;
}

function officeSource(id: string, detail: string, item: ScalarTree, scope: Scope): FormSource | undefined {
  if (!exists(scope, 'office', id, item.at)) return undefined;
  const known = oneOf(officeDetails, detail);
  if (known !== undefined) return { of: 'office', office: id, detail: known };
  scope.problems.add(item.at, `An office has no "${detail}"${didYouMean(detail, officeDetails)}`);
  return undefined;
}

function paperSource(kind: string, fact: string, item: ScalarTree, scope: Scope): FormSource | undefined {
  if (!exists(scope, 'kind', kind, item.at)) return undefined;
  const facts = new Set([...(scope.facts.get(kind) ?? []), ...paperDetails]);
  if (facts.has(fact)) return { of: 'paper', kind, fact };
  scope.problems.add(item.at, `The paper "${kind}" carries no fact "${fact}"${didYouMean(fact, facts)}`);
  return undefined;
}

function figureSource(figure: string, item: ScalarTree, scope: Scope): FormSource | undefined {
  if (scope.figures === undefined || scope.figures.has(figure)) return { of: 'figure', figure };
  scope.problems.add(item.at, `There is no figure "${figure}"${didYouMean(figure, scope.figures)}`);
  return undefined;
}

/** One source as a mapping writes it; what can't be understood is told with what may stand there. */
export function readFormSource(item: ScalarTree, scope: Scope): FormSource | undefined {
  const text = item.text.trim();
  const plain = plainSource(text);
  if (plain !== undefined) return plain;
  const [head = '', middle = '', last, more] = text.split('.');
  if (more === undefined && head === 'office' && last !== undefined) return officeSource(middle, last, item, scope);
  if (last === undefined && /^[a-z][a-z0-9_-]*$/.test(middle)) {
    if (head === 'lot') return exists(scope, 'question', middle, item.at) ? { of: 'lot', question: middle } : undefined;
    if (head === 'event') return exists(scope, 'event', middle, item.at) ? { of: 'event', event: middle } : undefined;
    return head === 'figure' ? figureSource(middle, item, scope) : paperSource(head, middle, item, scope);
  }
  scope.problems.add(item.at, `"${text}" is nothing a box can be filled from: write ${ways}.`);
  return undefined;
}
