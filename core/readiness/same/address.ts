import type { Truth } from '../../vocabulary/facts.ts';
import { directionals, suffixes, units } from './publication-28.ts';
import { bare, oneSlipApart } from './spelling.ts';

/** An address cut into the parts that count. What follows the street line (town, state, ZIP) is kept apart. */
export interface StreetAddress {
  readonly number: string;
  readonly before: string;
  readonly name: string;
  readonly suffix: string;
  readonly after: string;
  readonly unit: string;
  readonly rest: string;
}

const stateAndZip = /\s+[A-Z]{2}\s+\d{5}(?:-\d{4})?$/;

/** "Lot 7, Heron Lane": a lot number before the street, as plats write it. */
function lotFirst(text: string): readonly [lot: string, rest: string] {
  const match = /^(?:LOT|PARCEL|TRACT)\s+#?\s*([A-Z0-9-]+)\s*(.*)$/.exec(text);
  return match === null ? ['', text] : [`LOT ${match[1] ?? ''}`, match[2] ?? ''];
}

function cutUnit(words: readonly string[]): readonly [readonly string[], string] {
  const at = words.findIndex(
    (word, index) => index > 1 && (word.startsWith('#') || (units.has(word) && index < words.length - 1)),
  );
  const mark = words[at];
  if (mark === undefined) return [words, ''];
  const tail = words.slice(at + 1).join(' ');
  const unit = mark.startsWith('#') ? `# ${mark.slice(1)} ${tail}` : `${units.get(mark) ?? mark} ${tail}`;
  return [words.slice(0, at), unit.replace(/#/g, '# ').replace(/\s+/g, ' ').trim()];
}

/** "NORTH EAST" as two words counts as NE, "N E" likewise. */
function directional(words: readonly string[], fromEnd: boolean): readonly [string, number] {
  const two = fromEnd ? words.slice(-2) : words.slice(0, 2);
  const both = two.map((word) => directionals.get(word) ?? '?').join('');
  if (words.length > 2 && two.length === 2 && /^[NS][EW]$/.test(both)) return [both, 2];
  const one = directionals.get((fromEnd ? words.at(-1) : words[0]) ?? '');
  return one === undefined || words.length < 2 ? ['', 0] : [one, 1];
}

function streetParts(words: readonly string[]): Pick<StreetAddress, 'before' | 'name' | 'suffix' | 'after'> {
  const [after, afterCount] = directional(words, true);
  const bodyEnd = words.slice(0, words.length - afterCount);
  const suffix = bodyEnd.length > 1 ? suffixes.get(bodyEnd.at(-1) ?? '') : undefined;
  const body = suffix === undefined ? bodyEnd : bodyEnd.slice(0, -1);
  const [before, beforeCount] = directional(body, false);
  return { before, name: body.slice(beforeCount).map(spelledOut).join(' '), suffix: suffix ?? '', after };
}

/** A suffix word inside a name is spelled out (Publication 28, section 234.2); both spellings must meet. */
function spelledOut(word: string): string {
  return suffixes.get(word) ?? word;
}

/** Reads the street line of an address. Town, state and ZIP after a comma are kept in `rest`. */
export function readAddress(text: string): StreetAddress {
  const plain = text.replace(/^(\s*(?:lot|parcel|tract)\s+#?\s*[\w-]+)\s*,/i, '$1 ');
  const [line = '', ...tail] = plain.split(/[,;\n]/);
  const [lot, street] = lotFirst(bare(line).replace(stateAndZip, ''));
  const words = street.split(/\s+/).filter((word) => word !== '');
  const numbered = /^\d/.test(words[0] ?? '');
  const fraction = numbered && /^\d+\/\d+$/.test(words[1] ?? '') ? 2 : 1;
  const number = numbered ? words.slice(0, fraction).join(' ') : lot;
  const [body, unitOfLine] = cutUnit(numbered ? ['', ...words.slice(fraction)] : ['', ...words]);
  const parts = bare(tail[0] ?? '').split(/\s+/);
  const tailUnit = units.has(parts[0] ?? '') || (parts[0] ?? '').startsWith('#') ? cutUnit(['', '', ...parts])[1] : '';
  const rest = bare((tailUnit === '' ? tail : tail.slice(1)).join(' '));
  return { number, ...streetParts(body.slice(1)), unit: unitOfLine || tailUnit, rest };
}

function agree(a: string, b: string): boolean | 'silent' {
  if (a === b) return true;
  return a === '' || b === '' ? 'silent' : false;
}

/**
 * Whether two printed addresses name one place, after the light normalising of USPS Publication 28:
 * directionals, suffixes, units, spelled out or abbreviated. 'unknown' where they are close but not equal
 * (a part is missing on one side, or one slip of the pen apart): somebody has to look.
 */
export function sameAddress(a: string, b: string): Truth {
  const [one, two] = [readAddress(a), readAddress(b)];
  const parts = [
    agree(one.number, two.number),
    agree(one.before, two.before),
    agree(one.suffix, two.suffix),
    agree(one.after, two.after),
    agree(one.unit, two.unit),
  ];
  if (parts.includes(false)) return false;
  if (one.name !== two.name) return oneSlipApart(one.name, two.name) && one.name.length > 3 ? 'unknown' : false;
  return parts.includes('silent') || one.name === '' ? 'unknown' : true;
}
