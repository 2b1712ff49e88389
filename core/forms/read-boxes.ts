import type { FontMetrics } from '../typeset/drawing.ts';
import { neverByUs } from '../vocabulary/by-hand.ts';
import type { FormRule } from '../vocabulary/forms.ts';
import { type BoxText, boxText, firmsOn, type NamedBox, namedBoxes } from './box-text.ts';
import { boxTitle } from './box-title.ts';
import type { BlankField, BlankForm, BoxReading, FieldOption, FormReading } from './form-model.ts';
import { fieldText, layText } from './lay-text.ts';
import type { SourceCase } from './source-value.ts';

export interface FormCase extends SourceCase {
  readonly form: FormRule;
  readonly blank: BlankForm;
  readonly fonts: FontMetrics;
}

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

function optionFor(text: string, options: readonly FieldOption[]): FieldOption | undefined {
  const found = options.find(({ label }) => plain(label) === plain(text));
  return found ?? options.find(({ value }) => plain(value) === plain(text));
}

type Base = Pick<BoxReading, 'field' | 'title' | 'sort' | 'place' | 'from' | 'seat'>;

function listed(options: readonly FieldOption[]): string {
  return options.map(({ label }) => `"${label}"`).join(', ');
}

function chosen(base: Base, text: string, field: BlankField): BoxReading {
  const option = optionFor(text, field.options);
  if (option === undefined && !(field.sort === 'choice' && field.ownWords)) {
    const say = `"${text}" is not among the choices of this box: ${listed(field.options)}.`;
    return { ...base, state: 'not among the choices', value: text, say };
  }
  const value = option?.label ?? text;
  if (field.sort === 'choice') {
    return {
      ...base,
      state: 'filled',
      value,
      write: { field: field.name, write: 'choice', value: option?.value ?? text, text: value },
    };
  }
  return {
    ...base,
    state: 'filled',
    value,
    write: { field: field.name, write: 'state', state: option?.value ?? 'Off' },
  };
}

function ticked(base: Base, on: boolean, field: BlankField): BoxReading {
  const state = on ? (field.options[0]?.value ?? 'Yes') : 'Off';
  return {
    ...base,
    state: 'filled',
    value: on ? 'ticked' : 'not ticked',
    write: { field: field.name, write: 'state', state },
  };
}

/** A form's own script that wants a number or a date, against what would be written. */
function wrongSort(text: string, { wants }: BlankField): string | undefined {
  if (wants === 'number' && !/^\s*[-$]?\s*[\d,]+(\.\d+)?\s*$/.test(text))
    return `This box takes a number, and "${text}" is none.`;
  if (wants === 'date' && !/\d{1,4}[/.-]\d{1,2}[/.-]\d{1,4}|[A-Za-z]+ \d{1,2}, \d{4}/.test(text))
    return `This box takes a date, and "${text}" is none.`;
  return undefined;
}

function written(base: Base, text: string, { field, fonts }: { field: BlankField; fonts: FontMetrics }): BoxReading {
  const said = fieldText(text, field);
  const value = said;
  const wrong = wrongSort(said, field);
  if (wrong !== undefined) return { ...base, state: 'wrong sort', value, say: wrong };
  const strange = fonts.missing(said.replaceAll('\n', ''), 'text');
  if (strange.length > 0) {
    return {
      ...base,
      state: 'no such letters',
      value,
      say: `No font here has ${strange.join(' ')}: write this box by hand.`,
    };
  }
  const letters = [...said].length;
  if (field.longest !== undefined && letters > field.longest) {
    const say = `"${said}" has ${letters} letters, and this box takes ${field.longest}.`;
    return { ...base, state: 'too long', value, say };
  }
  const laid = field.places.map((place) => layText(said, field, { place, fonts }));
  if (laid.includes(undefined)) {
    return { ...base, state: 'too long', value, say: `"${said}" doesn't fit this box with letters that can be read.` };
  }
  const size = Math.min(...laid.map((one) => one?.size ?? 0));
  const note =
    field.size > 0 && size < field.size
      ? `Set smaller than the form says, in ${size} points, so that it fits.`
      : undefined;
  return {
    ...base,
    state: 'filled',
    value,
    ...(note === undefined ? {} : { say: note }),
    write: { field: field.name, write: 'text', text: said },
  };
}

function yesText({ facts }: Extract<BoxText, { is: 'text' }>): boolean | undefined {
  const [fact] = facts;
  return facts.length === 1 && fact?.sort === 'yes or no' ? fact.value : undefined;
}

function textReading(
  base: Base,
  said: Extract<BoxText, { is: 'text' }>,
  at: { field: BlankField; fonts: FontMetrics },
): BoxReading {
  const { field } = at;
  if (field.sort === 'text') return written(base, said.text, at);
  if (field.sort === 'tick box') {
    const option = optionFor(said.text, field.options);
    if (option !== undefined) return { ...chosen(base, said.text, field), value: 'ticked' };
    const yes = yesText(said);
    if (yes !== undefined) return ticked(base, yes, field);
    return {
      ...base,
      state: 'wrong sort',
      value: said.text,
      say: `This is a box to tick, and "${said.text}" is neither yes nor no.`,
    };
  }
  return chosen(base, said.text, field);
}

function byHand(base: Base, why: string): BoxReading {
  return { ...base, state: 'by hand', say: `${why}: yours to write, never filled here.` };
}

/** What stands against filling a box whatever the mapping says. */
function kept(base: Base, field: BlankField): BoxReading | undefined {
  if (field.sort === 'signature') return byHand(base, 'A signature');
  const hand = neverByUs(field.name) ?? (field.hint === undefined ? undefined : neverByUs(field.hint));
  if (hand !== undefined) return byHand(base, `It looks like ${hand}`);
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
  const never = kept(base, field);
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

function unmapped(field: BlankField): BoxReading {
  const base: Base = {
    field: field.name,
    title: boxTitle(field.name, field.hint),
    sort: field.sort,
    place: field.places[0],
  };
  return (
    kept(base, field) ?? { ...base, state: 'unmapped', ...(field.value === undefined ? {} : { value: field.value }) }
  );
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
  const others = given.blank.fields.filter(({ name }) => !mapped.has(name)).map(unmapped);
  return { boxes: [...said, ...others].toSorted(inOrder), notes: notesOf(given) };
}
