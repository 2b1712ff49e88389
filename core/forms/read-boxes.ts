import type { FontMetrics } from '../typeset/drawing.ts';
import type { FormRule } from '../vocabulary/forms.ts';
import { boxText, firmsOn, type NamedBox, namedBoxes } from './box-text.ts';
import { boxTitle } from './box-title.ts';
import { type Base, textReading, ticked } from './box-value.ts';
import type { BlankField, BlankForm, BoxReading, FormReading } from './form-model.ts';
import { handOf } from './hand-boxes.ts';
import type { SourceCase } from './source-value.ts';

export interface FormCase extends SourceCase {
  readonly form: FormRule;
  readonly blank: BlankForm;
  readonly fonts: FontMetrics;
}

function byHand(base: Base, why: string): BoxReading {
  return { ...base, state: 'by hand', say: `${why}: yours to write, never filled here.` };
}

/** What stands against filling a box whatever the mapping says. */
function kept(base: Base, field: BlankField, { blank }: FormCase): BoxReading | undefined {
  const hand = handOf(field, blank);
  if (hand !== undefined) return byHand(base, hand);
  if (field.sort === 'button') return { ...base, state: 'left', say: 'A button of the form, nothing to fill.' };
  return undefined;
}

function readBox(named: NamedBox, given: FormCase, fields: ReadonlyMap<string, BlankField>): BoxReading {
  const { box } = named;
  const field = fields.get(box.field);
  const base: Base = {
    field: box.field,
    title: boxTitle(box.field, field?.hint),
    sort: field?.sort,
    place: field?.places[0],
  };
  if (field === undefined) {
    return {
      ...base,
      state: 'not on the form',
      say: 'The mapping names this box, and this blank has none of that name.',
    };
  }
  if (box.do === 'by hand') return byHand(base, 'By hand');
  if (box.do === 'leave') return { ...base, state: 'left', say: `Left empty: ${box.why}.` };
  const never = kept(base, field, given);
  if (never !== undefined) return never;
  const said = boxText(named, given);
  if (said === undefined) return { ...base, state: 'left' };
  const full: Base = { ...base, from: said.from, seat: said.seat };
  if (given.form.wordedByLaw && field.sort !== 'text') return byHand(full, 'A statement that a law words');
  if (field.readOnly) return { ...full, state: 'left', say: 'The form itself keeps this box shut.' };
  switch (said.is) {
    case 'missing':
    case 'wrong sort':
      return { ...full, state: said.is, say: said.say };
    case 'empty':
      return { ...full, state: 'empty' };
    case 'ticked':
      return field.sort === 'tick box'
        ? ticked(full, said.ticked, field)
        : { ...full, state: 'wrong sort', say: 'The mapping ticks this box, and it is no box to tick.' };
    case 'text':
      return textReading(full, said, { field, fonts: given.fonts });
  }
}

function unmapped(field: BlankField, given: FormCase): BoxReading {
  const base: Base = {
    field: field.name,
    title: boxTitle(field.name, field.hint),
    sort: field.sort,
    place: field.places[0],
  };
  const say = field.required ? { say: 'The form marks it as required.' } : {};
  const value = field.value === undefined ? {} : { value: field.value };
  return kept(base, field, given) ?? { ...base, state: 'unmapped', ...value, ...say };
}

function notesOf(given: FormCase): readonly string[] {
  const { form, blank, at } = given;
  const firms = firmsOn(at.lot, at.day);
  const short = form.rows.filter(({ room }) => firms.length > room);
  const worked = blank.fields.filter((field) => field.worked).length;
  return [
    ...short.map(({ room }) => {
      const left = firms.slice(room).map(({ title }) => title);
      return `The form has room for ${room} firms, and ${firms.length} are noted: add ${left.join('; ')} on a sheet of its own.`;
    }),
    ...(worked === 0
      ? []
      : [`${worked} boxes are worked out by the form's own script, which is not run here: check them.`]),
    ...(blank.xfa === 'beside'
      ? ['Its second, XFA half is left out of the filled copy; the ordinary boxes are filled.']
      : []),
  ];
}

/** In the order of the form: by page, from the top, from the left. */
function inOrder(a: BoxReading, b: BoxReading): number {
  const [one, other] = [a.place, b.place];
  if (one === undefined || other === undefined) return (one === undefined ? 1 : 0) - (other === undefined ? 1 : 0);
  if (one.page !== other.page) return one.page - other.page;
  const rows = other.rect.y + other.rect.height - (one.rect.y + one.rect.height);
  return Math.abs(rows) > 4 ? rows : one.rect.x - other.rect.x;
}

/**
 * Every box of a form as of a day: what is filled and from where, what is missing, too long, of the wrong sort, not
 * among the choices, what nobody mapped, and what is for a person's own hand. Pure: the blank, the lot and the measures
 * of the letters come in as data.
 */
export function readBoxes(given: FormCase): FormReading {
  const fields = new Map(given.blank.fields.map((field) => [field.name, field]));
  const named = namedBoxes(given.form, given);
  const said = named.map((one) => readBox(one, given, fields));
  const mapped = new Set(named.map(({ box }) => box.field));
  const others = given.blank.fields.filter(({ name }) => !mapped.has(name)).map((field) => unmapped(field, given));
  return { boxes: [...said, ...others].toSorted(inOrder), notes: notesOf(given) };
}
