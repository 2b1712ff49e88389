import type { FactValue } from '../../vocabulary/facts.ts';
import type { FactRule } from '../../vocabulary/practice.ts';
import type { Candidate } from './choose-value.ts';
import type { PageText, TextWord } from './page-text.ts';
import { readValue } from './values.ts';

/** What drawings say without a label: "3 bedrooms, 2 baths, 1,640 sq ft heated", "Revision B, dated ...". */

/** At a word of a line: the words its value stands in; undefined where it says nothing of the fact. */
type Spot = (words: readonly TextWord[], at: number) => readonly TextWord[] | undefined;

const bare = (word: TextWord | undefined): string => (word?.text ?? '').replace(/[.,;:)]+$/, '');

const bedroomWord = /^(?:bed-?rooms?|bdrms?|brs?)$/i;

const bedrooms: Spot = (words, at) => {
  const [first, second] = [words[at], words[at + 1]];
  if (first === undefined) return undefined;
  const joined = /^(\d{1,2})-(?:bed-?rooms?|br)$/i.exec(bare(first));
  if (joined?.[1] !== undefined) return [{ ...first, text: joined[1] }];
  return /^\d{1,2}$/.test(first.text) && bedroomWord.test(bare(second)) ? [first] : undefined;
};

const heated = /^(?:heated|conditioned|living)$/i;

/** A floor area only where it is told to be the heated one: drawings bear many areas. */
const floorArea: Spot = (words, at) => {
  const [number, unit, feet] = words.slice(at, at + 3);
  if (number === undefined || !/^\d{1,3}(?:,\d{3})+$|^\d{3,5}$/.test(number.text)) return undefined;
  const long = /^(?:sq\.?|square)$/i.test(bare(unit)) && /^(?:ft|feet)$/i.test(bare(feet));
  if (!long && !/^(?:sf|s\.f|sq\.ft|sqft)$/i.test(bare(unit))) return undefined;
  const end = at + (long ? 3 : 2);
  const around = [...words.slice(Math.max(0, at - 2), at), ...words.slice(end, end + 2)];
  return around.some((word) => heated.test(bare(word))) ? [number] : undefined;
};

const revision: Spot = (words, at) => {
  const named = words[at + 1];
  if (named === undefined || !/^rev(?:ision)?\.?$/i.test(words[at]?.text ?? '')) return undefined;
  const text = bare(named);
  // "Form 12, REV 05" is the blank's own.
  if (words.some((word) => /^form$/i.test(bare(word)))) return undefined;
  return /^(?:[A-Z]|[1-9]\d?)$/.test(text) ? [{ ...named, text }] : undefined;
};

/** "Determination: Zone X (outside ...)". */
const floodZone: Spot = (words, at) => {
  const zone = words[at + 1];
  if (zone === undefined || !/^zone$/i.test(words[at]?.text ?? '')) return undefined;
  // "Not located in Zone AE" names the zone it is not in; a climate zone is none of these.
  const before = words
    .slice(0, at)
    .map(({ text }) => text)
    .join(' ');
  if (/\b(?:not|nor|outside|out|neither|climate|wind|zoning)\b/i.test(before)) return undefined;
  const text = bare(zone).replace(/^\(|\)$/g, '');
  return /^(?:A|AE|AH|AO|AR|A99|A\d{1,2}|V|VE|V\d{1,2}|X)$/.test(text) ? [{ ...zone, text }] : undefined;
};

const dollars = /^\$\d[\d,]*(?:\.\d\d)?[.,;]?$/;

/** "Coverage: builder's risk, $285,000": the one sum of a line that speaks of cover. */
const insuredValue: Spot = (words, at) => {
  const sum = words[at];
  if (sum === undefined || !dollars.test(sum.text)) return undefined;
  const line = words.map(({ text }) => text).join(' ');
  const sums = words.filter(({ text }) => dollars.test(text)).length;
  const told =
    /\b(?:coverage|limit|insured|covers?)\b/i.test(line) &&
    !/\b(?:premium|deductible|fee|paid|liability|occurrence|aggregate|injury)\b/i.test(line);
  return told && sums === 1 ? [sum] : undefined;
};

const ofTotal = /^(?:grand|total|sum|amount|costs?|of|the|work|construction|project|estimated)[:.]?$/i;

/** The total of a cost breakdown stands at the end of a line that says nothing else: no area, no count. */
const valuation: Spot = (words, at) => {
  const sum = words[at];
  const before = words.slice(0, at);
  if (sum === undefined || at !== words.length - 1 || !/^(?:grand|total)\b/i.test(words[0]?.text ?? ''))
    return undefined;
  if (!before.every(({ text }) => ofTotal.test(text))) return undefined;
  return /^\$?\d{1,3}(?:,\d{3})+(?:\.\d\d)?$/.test(sum.text) ? [sum] : undefined;
};

const spots: Readonly<Record<string, Spot>> = {
  bedrooms,
  floor_area: floorArea,
  revision,
  flood_zone: floodZone,
  insured_value: insuredValue,
  valuation,
};

/** Below every value with a label of its own: a line of words may speak of another paper. */
const rank = 0.9;

/** Every place where the pages say the fact in a line of words, without a label. */
export function saidInLine(fact: FactRule, pages: readonly PageText[]): readonly Candidate<FactValue>[] {
  const { id, sort } = fact;
  const spot = Object.hasOwn(spots, id) ? spots[id] : undefined;
  if (spot === undefined || sort === 'day') return [];
  return pages.flatMap((page) =>
    page.lines.flatMap(({ words }) =>
      words.flatMap((_, at): readonly Candidate<FactValue>[] => {
        const found = spot(words, at);
        const value = found === undefined ? undefined : readValue(sort, found, '')?.value;
        return found === undefined || value === undefined ? [] : [{ value, words: found, page, rank }];
      }),
    ),
  );
}
