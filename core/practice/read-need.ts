import { type Before, type Need, needUses } from '../vocabulary/practice.ts';
import { isSheetName, type SheetName, sheetNames, sheetSizes } from '../vocabulary/sheets.ts';
import { Fields } from './fields.ts';
import { didYouMean } from './problems.ts';
import { readBasis } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import { readFill } from './read-form.ts';
import { subjectSorts } from './read-paper.ts';
import type { Rule } from './read-small-rules.ts';
import { exists, type Scope } from './scope.ts';

const forms = ['paper', 'electronic', 'either', 'paper only', 'electronic only'] as const;

/** "letter to arch-d" and "ansi-b or larger" name every sheet between; so do plain lists. */
function readSheets(fields: Fields): readonly SheetName[] {
  const { problems } = fields.scope;
  const names = fields.texts('sheets');
  const only = names.length === 1 ? (names[0] ?? '') : '';
  const range = /^(\S+) (?:to (\S+)|or larger)$/.exec(only);
  const asked = range === null ? names : [range[1], range[2]].filter((name) => name !== undefined);
  const known = asked.flatMap((name) => {
    if (isSheetName(name)) return [name];
    problems.add(
      fields.at,
      `"sheets" of ${fields.about}: there is no sheet size "${name}"${didYouMean(name, sheetNames)}`,
    );
    return [];
  });
  const [small, large] = known;
  if (range === null || small === undefined) return known;
  const [w, h] = sheetSizes[small];
  const [most, tall] = range[2] === undefined || large === undefined ? [Infinity, Infinity] : sheetSizes[large];
  return sheetNames.filter((name) => {
    const [width, height] = sheetSizes[name];
    return width >= w && height >= h && width <= most && height <= tall;
  });
}

/** The kinds that meet a need: the ones it names, else the kind that bears the need's own id. */
function readKinds(fields: Fields, id: string): readonly string[] {
  if (fields.has('any_of')) {
    const kinds = fields.refs('any_of', 'kind');
    if (fields.has('kind'))
      fields.scope.problems.add(fields.at, `${fields.about} says both "kind" and "any_of": keep one.`);
    fields.get('kind');
    return kinds;
  }
  if (fields.has('kind')) return fields.refs('kind', 'kind');
  return exists(fields.scope, 'kind', id, fields.at) ? [id] : [];
}

/** A need of an errand. `errand` only names it in complaints. */
export function readNeed({ id, tree, at }: Rule, errand: string, scope: Scope): Need {
  const fields = new Fields(scope, tree, { name: `need "${id}" of errand "${errand}"`, at });
  if (fields.has('use') && fields.has('how'))
    scope.problems.add(at, `${fields.about} says both "use" and "how": keep one.`);
  const use = fields.word('use', needUses) ?? fields.word('how', needUses) ?? 'leave';
  fields.get('how');
  const form = fields.word('form', forms) ?? 'either';
  const need: Need = {
    id,
    kinds: readKinds(fields, id),
    when: readWhen(fields),
    each: fields.word('each', subjectSorts),
    use,
    copies: fields.count('copies') ?? 1,
    form: form === 'paper only' ? 'paper' : form === 'electronic only' ? 'electronic' : form,
    sheets: readSheets(fields),
    seal: fields.words('seal', ['wet', 'digital']),
    marks: fields.texts('marks'),
    facts: fields.texts('facts'),
    approvedBy: fields.ref('approved_by', 'office'),
    stampedBy: fields.ref('stamped_by', 'office'),
    goodFor: fields.span('good_for'),
    fresh: fields.span('fresh'),
    fill: readFill(fields),
    optional: fields.yes('optional', false),
    why: fields.text('why'),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return need;
}

/** Something before an errand: `{event: ...}`, `{errand: ...}`, `{after: either}`, or the id itself names it. */
export function readBefore({ id, tree, at }: Rule, errand: string, scope: Scope): Before {
  const fields = new Fields(scope, tree, { name: `"before" rule "${id}" of errand "${errand}"`, at });
  const event = fields.ref('event', 'event');
  const other = fields.ref('errand', 'errand');
  const either = fields.text('after') ?? (fields.has('event') || fields.has('errand') ? undefined : id);
  const rule: Before = {
    id,
    after: event !== undefined ? { event } : other !== undefined ? { errand: other } : eventOrErrand(either, fields),
    when: readWhen(fields),
    why: fields.text('why'),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return rule;
}

function eventOrErrand(id: string | undefined, fields: Fields): Before['after'] {
  const { known, problems } = fields.scope;
  if (id === undefined || known.event.has(id)) return { event: id ?? '' };
  if (!known.errand.has(id)) {
    const near = didYouMean(id, [...known.event, ...known.errand]);
    problems.add(fields.at, `${fields.about}: there is no event or errand "${id}"${near}`);
  }
  return { errand: id };
}
