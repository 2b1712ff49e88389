import { factSorts } from '../vocabulary/facts.ts';
import {
  type Duty,
  type EventKind,
  type Hold,
  type Office,
  officeSorts,
  type Question,
} from '../vocabulary/practice.ts';
import { Fields, titleOf } from './fields.ts';
import type { Place } from './problems.ts';
import { readBasis } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import type { Scope } from './scope.ts';
import { isTimeOfDay } from './values.ts';
import type { Tree } from './yaml-tree.ts';

/** One rule as it stands in the file. */
export interface Rule {
  readonly id: string;
  readonly tree: Tree;
  readonly at: Place;
}

export function readOffice({ id, tree, at }: Rule, scope: Scope): Office {
  const fields = new Fields(scope, tree, { name: `office "${id}"`, at });
  if (!fields.has('sort')) fields.missing('sort');
  const intakeUntil = fields.text('intake_until');
  if (intakeUntil !== undefined && !isTimeOfDay(intakeUntil)) {
    scope.problems.add(at, `"intake_until" of office "${id}" is a time of day like "15:30", not "${intakeUntil}".`);
  }
  const office: Office = {
    id,
    title: fields.text('title') ?? titleOf(id),
    sort: fields.word('sort', officeSorts) ?? 'land',
    exists: fields.yes('exists', true),
    street: fields.text('street'),
    phone: fields.text('phone'),
    hours: fields.text('hours'),
    intakeUntil,
    payee: fields.text('payee'),
    pays: fields.text('pays'),
    appear: fields.text('appear'),
    appointment: fields.text('appointment'),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return office;
}

export function readQuestion({ id, tree, at }: Rule, scope: Scope): Question {
  const fields = new Fields(scope, tree, { name: `question "${id}"`, at });
  const sort = fields.word('sort', factSorts) ?? 'text';
  if (!fields.has('sort')) fields.missing('sort');
  const choices = fields.texts('choices');
  if (sort === 'choice' && choices.length < 2) {
    scope.problems.add(at, `question "${id}" is a choice, so it needs at least two "choices".`);
  }
  if (sort !== 'choice' && choices.length > 0) {
    scope.problems.add(at, `question "${id}" has choices, so its sort is "choice", not "${sort}".`);
  }
  const question: Question = {
    id,
    ask: fields.needed('ask'),
    sort,
    choices,
    why: fields.needed('why'),
    where: fields.needed('where'),
    first: fields.yes('first', false),
  };
  fields.close();
  return question;
}

export function readEvent({ id, tree, at }: Rule, scope: Scope): EventKind {
  const fields = new Fields(scope, tree, { name: `event "${id}"`, at });
  const title = fields.text('title') ?? titleOf(id);
  fields.close();
  return { id, title };
}

export function readDuty({ id, tree, at }: Rule, scope: Scope): Duty {
  const fields = new Fields(scope, tree, { name: `duty "${id}"`, at });
  for (const key of ['kind', 'to']) if (!fields.has(key)) fields.missing(key);
  const duty: Duty = {
    id,
    kind: fields.ref('kind', 'kind') ?? '',
    from: fields.ref('from', 'event'),
    to: fields.ref('to', 'event') ?? '',
    when: readWhen(fields),
    say: fields.needed('say'),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return duty;
}

export function readHold({ id, tree, at }: Rule, scope: Scope): Hold {
  const fields = new Fields(scope, tree, { name: `hold "${id}"`, at });
  for (const key of ['event', 'until']) if (!fields.has(key)) fields.missing(key);
  const hold: Hold = {
    id,
    title: fields.text('title') ?? titleOf(id),
    event: fields.ref('event', 'event') ?? '',
    until: fields.refs('until', 'errand'),
    when: readWhen(fields),
    say: fields.needed('say'),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return hold;
}
