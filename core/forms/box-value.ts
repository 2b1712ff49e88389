import type { FontMetrics } from '../typeset/drawing.ts';
import type { BoxText } from './box-text.ts';
import type { BlankField, BoxReading, FieldOption } from './form-model.ts';
import { fieldText, layText } from './lay-text.ts';

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

function optionFor(text: string, options: readonly FieldOption[]): FieldOption | undefined {
  const found = options.find(({ label }) => plain(label) === plain(text));
  return found ?? options.find(({ value }) => plain(value) === plain(text));
}

/** What is known of a box before its value is looked at. */
export type Base = Pick<BoxReading, 'field' | 'title' | 'sort' | 'place' | 'from' | 'seat'>;

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

/** A box to tick. */
export function ticked(base: Base, on: boolean, field: BlankField): BoxReading {
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

/** A value for a box of whatever sort, or why it can't stand there. */
export function textReading(
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
