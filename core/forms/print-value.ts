import type { FactValue } from '../vocabulary/facts.ts';
import type { Printing } from '../vocabulary/forms.ts';
import { moneyInWords } from '../vocabulary/money.ts';
import { factInWords } from '../vocabulary/said-facts.ts';

/** A value as it stands on a form, or why it can't be printed so. */
export type Printed = { readonly text: string } | { readonly wrong: string };

const ofDays: readonly Printing[] = ['m/d/yyyy', 'mm/dd/yyyy', 'yyyy-mm-dd', 'in words', 'day', 'month', 'year'];
const ofText: readonly Printing[] = ['capitals', 'digits', 'letters and digits'];
const ofMoney: readonly Printing[] = ['digits', 'no sign', 'with cents'];
const ofNumbers: readonly Printing[] = ['digits', 'with unit'];

const longDay = new Intl.DateTimeFormat('en-US', { dateStyle: 'long', timeZone: 'UTC' });

function dayText(value: string, as: Printing | undefined): string {
  const [year = '', month = '', day = ''] = value.split('-');
  switch (as) {
    case 'mm/dd/yyyy':
      return `${month}/${day}/${year}`;
    case 'yyyy-mm-dd':
      return value;
    case 'in words':
      return longDay.format(new Date(`${value}T00:00:00Z`));
    case 'day':
      return String(Number(day));
    case 'month':
      return String(Number(month));
    case 'year':
      return year;
    default:
      return `${Number(month)}/${Number(day)}/${year}`;
  }
}

/** Cents never vanish: where there are any they are printed. */
function moneyText(cents: number, as: Printing | undefined): string {
  const whole = moneyInWords(cents);
  const exact = /\.\d\d$/.test(whole) ? whole : `${whole}.00`;
  if (as === 'with cents') return exact.replace('$', '');
  const plain = whole.replace('$', '');
  if (as === 'digits') return plain.replaceAll(',', '');
  return as === 'no sign' ? plain : whole;
}

function textAs(text: string, as: Printing | undefined): string {
  if (as === 'capitals') return text.toLocaleUpperCase('en-US');
  if (as === 'digits') return text.replace(/\P{Nd}/gu, '');
  return as === 'letters and digits' ? text.replace(/[^\p{L}\p{M}\p{Nd}]/gu, '') : text;
}

function printingsOf(sort: FactValue['sort']): readonly Printing[] {
  if (sort === 'day') return ofDays;
  if (sort === 'money') return ofMoney;
  if (sort === 'yes or no') return [];
  return ['count', 'number', 'length', 'area', 'volume', 'flow', 'percent', 'elevation'].includes(sort)
    ? ofNumbers
    : ofText;
}

/**
 * Prints a fact as a form wants it. Days stand as month/day/year, numbers with thousands commas and without their
 * unit (the form prints it), money with its sign, unless the mapping says otherwise.
 * @param as only what fits the sort; the rest is told, never guessed
 */
export function printValue(value: FactValue, as: Printing | undefined): Printed {
  if (as !== undefined && !printingsOf(value.sort).includes(as)) {
    return { wrong: `"${factInWords(value)}" is ${sortWords[value.sort] ?? 'words'}: it can't be printed as "${as}".` };
  }
  if (value.sort === 'day') return { text: dayText(value.value, as) };
  if (value.sort === 'money') return { text: moneyText(value.value, as) };
  if (as === 'with unit' || value.sort === 'yes or no') return { text: factInWords(value) };
  if (value.sort === 'elevation') return { text: as === 'digits' ? String(value.value.feet) : factInWords(value) };
  if (typeof value.value === 'string') return { text: textAs(value.value.normalize('NFC'), as) };
  if (as === 'digits') return { text: String(value.value) };
  return { text: value.value.toLocaleString('en-US', { maximumFractionDigits: 6 }) };
}

const sortWords: Partial<Readonly<Record<FactValue['sort'], string>>> = {
  day: 'a day',
  money: 'an amount of money',
  'yes or no': 'yes or no',
  count: 'a number',
  number: 'a number',
  length: 'a length',
  area: 'an area',
  volume: 'a volume',
  flow: 'a flow',
  percent: 'a percentage',
  elevation: 'an elevation',
};
