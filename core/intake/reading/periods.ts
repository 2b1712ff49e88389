import type { Span } from '../../vocabulary/days.ts';
import { type Flow, flowOf, wordsOfStretch } from './flow.ts';
import type { PageText, TextWord } from './page-text.ts';

/** "Good for 18 months from the date of issue": how long, and counted from what. */
export interface Period {
  readonly page: PageText;
  readonly words: readonly TextWord[];
  readonly span: Span;
  readonly from: 'issued' | 'effective' | 'unsaid';
}

const small = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
];
const tens = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

/** "eighteen", "twenty-four", "one hundred eighty", "18". */
export function numberInWords(text: string): number | undefined {
  if (/^\d{1,3}$/.test(text)) return Number(text);
  let sum = 0;
  for (const word of text.toLowerCase().split(/[\s-]+/)) {
    if (word === '' || word === 'and' || word === 'a' || word === 'an') sum += word === 'a' || word === 'an' ? 1 : 0;
    else if (small.includes(word)) sum += small.indexOf(word);
    else if (tens.includes(word)) sum += (tens.indexOf(word) + 2) * 10;
    else if (word === 'hundred') sum = Math.max(1, sum) * 100;
    else return undefined;
  }
  return sum > 0 ? sum : undefined;
}

const word = `(?:${[...small.slice(1), ...tens, 'hundred'].join('|')})`;
const amount = `(\\d{1,3}|(?:${word})(?:[\\s-]+(?:and\\s+)?${word}){0,3})`;
const shape = new RegExp(
  `\\b(good|valid|effective|in\\s+force|in\\s+effect|expires?|lapses?|remains?|void|expiration)\\b([^.;:]{0,80}?)\\b${amount}` +
    '\\s*(?:\\(\\s*(\\d{1,3})\\s*\\))?\\s*-?\\s*(calendar\\s+|working\\s+|business\\s+)?(days?|weeks?|months?|years?)\\b([^.;]{0,90})',
  'gi',
);

/** The sentence is about something else: work that must begin, or goes idle, or a change. */
const otherClock =
  /\b(?:if|unless|when|where|should)\b[^.;]{0,60}\b(?:begun|begin|commenced?|start(?:ed)?|suspended|abandoned|idle|inspection|work)\b|\bnot\s+(?:been\s+)?(?:begun|commenced|started)\b|\bnotice\b|\bwithin\b|\bperiod\s+of\s+inactivity\b/i;

function spanOf(count: number, unit: string, sort: string): Span {
  const key = unit.toLowerCase().replace(/s?$/, 's');
  if (/working|business/i.test(sort) && key === 'days') return { workingDays: count };
  if (key === 'days') return { days: count };
  if (key === 'weeks') return { weeks: count };
  return key === 'months' ? { months: count } : { years: count };
}

function countedFrom(rest: string, before: string): Period['from'] | 'other' {
  if (/\b(?:from|after|following|of)\b[^.;]{0,40}\beffective|\binception/i.test(rest)) return 'effective';
  if (
    /\b(?:issu|grant|approv|date\s+(?:hereof|above|of\s+this|shown)|above\s+date|this\s+date|permit\s+date|date\s+signed|its\s+date)/i.test(
      rest,
    )
  )
    return 'issued';
  if (/\b(?:from|after|following)\b/i.test(rest)) return 'other';
  return /\bfor\b/i.test(before) ? 'unsaid' : 'other';
}

function periodsOf(flow: Flow): readonly Period[] {
  return [...flow.text.matchAll(shape)].flatMap((match) => {
    const [whole, , before = '', said = '', inFigures, sort = '', unit = '', rest = ''] = match;
    const start = match.index;
    const sentence = flow.text.slice(Math.max(0, flow.text.lastIndexOf('.', start) + 1), start + whole.length);
    const count = numberInWords(inFigures ?? said);
    const from = countedFrom(rest, before);
    // "eighteen (12) months" says two things.
    const saidTwice = inFigures !== undefined && numberInWords(said) !== Number(inFigures);
    if (count === undefined || from === 'other' || saidTwice || otherClock.test(sentence)) return [];
    const words = wordsOfStretch(flow, start, start + whole.length - rest.length + Math.min(rest.length, 40));
    return [{ page: flow.page, words, span: spanOf(count, unit, sort), from }];
  });
}

/** Every sentence that gives a paper's life as a length of time. */
export function findPeriods(pages: readonly PageText[]): readonly Period[] {
  return pages.flatMap((page) => periodsOf(flowOf(page)));
}
