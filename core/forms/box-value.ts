import type { FontMetrics } from '../typeset/drawing.ts';
import type { BoxText } from './box-text.ts';
import type { BlankField, BoxReading, FieldOption } from './form-model.ts';
import { fieldText, layText } from './lay-text.ts';
import { optionSaying, saysNo } from './yes-or-no.ts';

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

function optionFor(text: string, options: readonly FieldOption[]): FieldOption | undefined {
  const found = options.find(({ label }) => plain(label) === plain(text));
  if (found !== undefined) return found;
  // A state that is only a number counts the squares: "2" is no answer to "how many".
  return options.find(({ value, label }) => plain(value) === plain(text) && (value === label || !/^\d+$/.test(value)));
}

/** What is known of a box before its value is looked at. */
export type Base = Pick<BoxReading, 'field' | 'title' | 'sort' | 'place' | 'from' | 'seat'>;

function listed(options: readonly FieldOption[]): string {
  return options.map(({ label }) => `"${label}"`).join(', ');
}

function notAmong(base: Base, text: string, { options }: BlankField): BoxReading {
  const say = `"${text}" is not among the choices of this box: ${listed(options)}.`;
  return { ...base, state: 'not among the choices', value: text, say };
}

/** One state of a tick box or radio, with the place that it marks. */
function marked(base: Base, state: string, { field, value }: { field: BlankField; value: string }): BoxReading {
  const place = field.places.find(({ on }) => on === state) ?? base.place;
  return { ...base, state: 'filled', value, place, write: { field: field.name, write: 'state', state } };
}

/** Why words can't be printed in a box: letters no font has, or no room at one of its places. */
function unprinted(
  base: Base,
  value: string,
  { field, fonts }: { field: BlankField; fonts: FontMetrics },
): BoxReading | undefined {
  const strange = fonts.missing(value.replaceAll('\n', ''), 'text');
  if (strange.length > 0) {
    const say = `No font here has ${strange.join(' ')}: write this box by hand.`;
    return { ...base, state: 'no such letters', value, say };
  }
  if (field.places.every((place) => layText(value, field, { place, fonts }) !== undefined)) return undefined;
  return { ...base, state: 'too long', value, say: `"${value}" doesn't fit this box with letters that can be read.` };
}

function chosen(base: Base, text: string, { field, fonts }: { field: BlankField; fonts: FontMetrics }): BoxReading {
  const option = optionFor(text, field.options);
  if (option === undefined && !(field.sort === 'choice' && field.ownWords)) return notAmong(base, text, field);
  const value = option?.label ?? text;
  if (field.sort !== 'choice') return marked(base, option?.value ?? 'Off', { field, value });
  const write = { field: field.name, write: 'choice', value: option?.value ?? text, text: value } as const;
  return unprinted(base, value, { field, fonts }) ?? { ...base, state: 'filled', value, write };
}

/**
 * A box to tick. One square is marked or left empty; of several of one name the one that says so is marked, and where
 * none does, nobody guesses.
 */
export function ticked(base: Base, on: boolean, field: BlankField): BoxReading {
  const [only, ...more] = field.options;
  if (more.length === 0)
    return marked(base, on ? (only?.value ?? 'Yes') : 'Off', { field, value: on ? 'ticked' : 'not ticked' });
  const option = optionSaying(on, field.options);
  if (option === undefined) return notAmong(base, on ? 'yes' : 'no', field);
  return marked(base, option.value, { field, value: option.label });
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
  const letters = [...said].length;
  if (field.longest !== undefined && letters > field.longest) {
    const say = `"${said}" has ${letters} letters, and this box takes ${field.longest}.`;
    return { ...base, state: 'too long', value, say };
  }
  const unfit = unprinted(base, said, { field, fonts });
  if (unfit !== undefined) return unfit;
  const laid = field.places.map((place) => layText(said, field, { place, fonts }));
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

/** A single square that says "No" is ticked for no, and for no alone. */
function answered(base: Base, yes: boolean, field: BlankField): BoxReading {
  const [only] = field.options;
  const saysOther = field.options.length === 1 && only !== undefined && (saysNo(only.label) || saysNo(only.value));
  return ticked(base, saysOther ? !yes : yes, field);
}

function squareReading(
  base: Base,
  said: Extract<BoxText, { is: 'text' }>,
  at: { field: BlankField; fonts: FontMetrics },
): BoxReading {
  const { field } = at;
  const option = optionFor(said.text, field.options);
  const one = field.options.length <= 1;
  if (option !== undefined) return { ...chosen(base, said.text, at), value: one ? 'ticked' : option.label };
  const yes = yesText(said);
  if (yes !== undefined) return answered(base, yes, field);
  if (!one) return notAmong(base, said.text, field);
  const say = `This is a box to tick, and "${said.text}" is neither yes nor no.`;
  return { ...base, state: 'wrong sort', value: said.text, say };
}

/** A value for a box of whatever sort, or why it can't stand there. */
export function textReading(
  base: Base,
  said: Extract<BoxText, { is: 'text' }>,
  at: { field: BlankField; fonts: FontMetrics },
): BoxReading {
  const { field } = at;
  if (field.sort === 'text') return written(base, said.text, at);
  if (field.sort === 'tick box') return squareReading(base, said, at);
  return chosen(base, said.text, at);
}
