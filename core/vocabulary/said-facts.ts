import { asDay, dayInWords } from './days.ts';
import { LotfileError } from './errors.ts';
import type { Answer, FactSort, FactValue } from './facts.ts';
import { moneyInWords, parseMoney } from './money.ts';

/** How a person may write each sort of fact; shown when they wrote it otherwise. */
const examples: Readonly<Record<FactSort, string>> = {
  text: 'any words',
  name: 'a name as printed',
  address: 'an address as printed',
  'parcel number': 'a parcel number as printed',
  revision: 'a revision such as B',
  choice: 'one of the choices',
  count: 'a whole number such as 3',
  number: 'a number such as 4.5',
  day: 'a date such as 2026-03-02',
  money: 'an amount such as 1,250 usd',
  'yes or no': 'yes or no',
  length: 'feet, such as 12.5 ft',
  area: 'square feet, such as 1,850 sq ft',
  volume: 'cubic feet, such as 14,800 cu ft',
  flow: 'a flow such as 740 cfm',
  elevation: 'feet and the vertical datum, such as 101.5 ft NAVD 88',
  percent: 'a percentage such as 95 %',
};

const units: Partial<Readonly<Record<FactSort, RegExp>>> = {
  length: /^(ft|feet|foot|')$/,
  area: /^(sq\.? ?ft|square feet|ft2|sf)$/,
  volume: /^(cu\.? ?ft|cubic feet|ft3|cf)$/,
  flow: /^(cfm|cfm50)$/,
  percent: /^(%|percent)$/,
};

const sortInWords: Partial<Readonly<Record<FactSort, string>>> = {
  area: 'an area',
  elevation: 'an elevation',
  address: 'an address',
  money: 'an amount of money',
  text: 'words',
  'yes or no': 'yes or no',
};

function unreadable(sort: FactSort, text: string, about: string): never {
  throw new LotfileError('wrong use', `"${text}" can't be read as ${sortInWords[sort] ?? `a ${sort}`}.`, {
    about,
    next: `Write ${examples[sort]}.`,
  });
}

/** A number with thousands commas and an optional unit of the sort; undefined where it is none. */
function amountOf(sort: FactSort, text: string): number | undefined {
  const match = /^(-?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|-?\.\d+)\s*(.*)$/.exec(text.toLowerCase());
  if (match === null) return undefined;
  const unit = match[2] ?? '';
  if (unit !== '' && units[sort]?.test(unit) !== true) return undefined;
  return Number(match[1]?.replaceAll(',', ''));
}

function elevationOf(text: string): FactValue | undefined {
  const match = /^(-?\d+(?:\.\d+)?)\s*(?:(?:ft|feet)\b)?\s*([A-Za-z].*)?$/i.exec(text);
  const datum = match?.[2]?.toUpperCase().replace(/\s+/g, ' ').trim();
  if (match === null || datum === undefined) return undefined;
  return { sort: 'elevation', value: { feet: Number(match[1]), datum } };
}

/**
 * Reads a fact as a person says it, by the sort the practice gives it.
 * @param about named in the error: the fact's title.
 * @throws LotfileError `wrong use` with an example of how to write it.
 */
export function readFact(sort: FactSort, said: string, about: string): FactValue {
  const text = said.normalize('NFC').trim().replace(/\s+/g, ' ');
  if (text === '') return unreadable(sort, said, about);
  switch (sort) {
    case 'text':
    case 'name':
    case 'address':
    case 'parcel number':
    case 'revision':
    case 'choice':
      return { sort, value: text };
    case 'count':
      return /^\d{1,6}$/.test(text) ? { sort, value: Number(text) } : unreadable(sort, said, about);
    case 'number':
    case 'length':
    case 'area':
    case 'volume':
    case 'flow':
    case 'percent': {
      const value = amountOf(sort, text);
      return value === undefined ? unreadable(sort, said, about) : { sort, value };
    }
    case 'money': {
      const value = parseMoney(/[a-z$]/i.test(text) ? text : `${text} usd`);
      return value === undefined ? unreadable(sort, said, about) : { sort, value };
    }
    case 'day':
      return { sort, value: asDay(text, about) };
    case 'yes or no':
      if (/^(yes|true)$/i.test(text)) return { sort, value: true };
      return /^(no|false)$/i.test(text) ? { sort, value: false } : unreadable(sort, said, about);
    case 'elevation':
      return elevationOf(text) ?? unreadable(sort, said, about);
  }
}

/** Like {@link readFact}, where "don't know yet" is an answer too. */
export function readAnswer(sort: FactSort, said: string, about: string): Answer {
  return /^(don.?t know( yet)?|unknown|\?)$/i.test(said.trim())
    ? { sort: "don't know yet" }
    : readFact(sort, said, about);
}

/** The fact as the program prints it. */
export function factInWords(fact: Answer): string {
  switch (fact.sort) {
    case "don't know yet":
      return "don't know yet";
    case 'money':
      return moneyInWords(fact.value);
    case 'day':
      return dayInWords(fact.value);
    case 'yes or no':
      return fact.value ? 'yes' : 'no';
    case 'elevation':
      return `${fact.value.feet} ft ${fact.value.datum}`;
    case 'length':
      return `${fact.value} ft`;
    case 'area':
      return `${fact.value.toLocaleString('en-US')} sq ft`;
    case 'volume':
      return `${fact.value.toLocaleString('en-US')} cu ft`;
    case 'flow':
      return `${fact.value.toLocaleString('en-US')} cfm`;
    case 'percent':
      return `${fact.value} %`;
    default:
      return String(fact.value);
  }
}
