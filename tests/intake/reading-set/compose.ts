import { addDays, addSpan, type Day } from '../../../core/vocabulary/days.ts';
import { type Cast, castFor } from './cast.ts';
import { Chance } from './chance.ts';
import type { FieldUse, KindSpec, TruthSlot } from './kind-model.ts';
import { houseKinds } from './kinds-house.ts';
import { landKinds } from './kinds-land.ts';
import { type DatePrinter, datePrinter, dollars, someDay } from './printed.ts';
import { type Field, type Half, labels } from './wordings.ts';

export const kinds: readonly KindSpec[] = [...landKinds, ...houseKinds];
export const setSize = 200;

export type Layout = 'colon' | 'columns' | 'boxed' | 'sentences' | 'dotted' | 'table';

export type Block =
  | { readonly sort: 'letterhead'; readonly lines: readonly string[] }
  | { readonly sort: 'title'; readonly text: string }
  | { readonly sort: 'pairs'; readonly layout: Layout; readonly pairs: readonly (readonly [string, string])[] }
  | { readonly sort: 'text'; readonly text: string }
  | { readonly sort: 'signature'; readonly name: string; readonly date: string }
  | { readonly sort: 'stamp'; readonly text: string }
  | { readonly sort: 'foot'; readonly text: string };

export interface Truth {
  readonly kind: string;
  readonly days: Readonly<Partial<Record<'issued' | 'effective' | 'goodThrough', Day>>>;
  readonly texts: Readonly<Partial<Record<'number' | 'parcel' | 'address' | 'owner', string>>>;
  /** Facts as they must come out: amounts in cents, elevations in feet. */
  readonly facts: Readonly<Record<string, string | number>>;
}

export interface SetDocument {
  readonly index: number;
  readonly half: Half;
  readonly blocks: readonly Block[];
  readonly truth: Truth;
}

interface Value {
  readonly printed: string;
  readonly truth: string | number;
}

interface Making {
  readonly chance: Chance;
  readonly half: Half;
  readonly spec: KindSpec;
  readonly cast: Cast;
  readonly print: DatePrinter;
  readonly from: Day;
  readonly to: Day;
}

function lastDay(spec: KindSpec, from: Day): Day {
  return addSpan(from, { months: spec.good?.months ?? 0, days: spec.good?.days ?? 0 });
}

const results = ['PASSED', 'FAILED', 'Approved', 'Not approved', 'Partial'];

function drawnValue(field: Field, making: Making): Value {
  const { chance, cast, print, spec, from, to } = making;
  const same = (text: string): Value => ({ printed: text, truth: text });
  const amount = (low: number, high: number): Value => {
    const whole = chance.whole(low, high) * 500;
    return { printed: dollars(whole), truth: whole * 100 };
  };
  const day = (date: Day): Value => ({ printed: print(date), truth: date });
  const plain = (value: number, unit: string): Value => ({
    printed: `${value.toLocaleString('en-US')}${unit}`,
    truth: value,
  });
  switch (field) {
    case 'number':
    case 'licence':
      return same(chance.pattern(chance.pick(spec.numberShape)));
    case 'issued':
    case 'inspected':
    case 'tested':
    case 'treated':
      return day(from);
    case 'effective':
    case 'coverFrom':
      return day(from);
    case 'expires':
    case 'coverTo':
      return day(to);
    case 'workFrom':
      return day(addDays(from, 3));
    case 'sampled':
      return day(addDays(from, -4));
    case 'through':
      return day(addDays(from, -1));
    case 'parcel':
      return same(cast.parcel);
    case 'address':
      return { printed: chance.yes(0.4) ? `${cast.address}, ${cast.town}` : cast.address, truth: cast.address };
    case 'owner':
      return same(cast.owner);
    case 'firm':
      return same(cast.firm);
    case 'bedrooms':
      return plain(chance.whole(2, 5), '');
    case 'value':
      return amount(400, 1400);
    case 'loan':
      return amount(300, 900);
    case 'completed':
      return amount(600, 1400);
    case 'result':
      return same(
        spec.kind === 'water-test' ? chance.pick(['Absent', 'Satisfactory', 'ABSENT']) : chance.pick(results),
      );
    case 'lowestFloor':
    case 'baseFlood': {
      const feet = chance.whole(800, 3200) / 10;
      return { printed: `${feet.toFixed(1)} ft ${chance.pick(['NAVD 88', 'NAVD88'])}`, truth: feet };
    }
    case 'zone':
      return same(chance.pick(['X', 'AE', 'A', 'VE']));
    case 'airChanges':
      return { ...plain(chance.whole(120, 480) / 100, ''), printed: (0).toFixed(0) };
    case 'fanFlow':
      return plain(chance.whole(320, 1480), ' cfm');
    case 'volume':
      return plain(chance.whole(9000, 26000), ' cu ft');
    case 'acreage':
      return plain(chance.whole(11, 94) / 10, '');
    case 'rate':
      return plain(chance.whole(8, 90), ' min/inch');
  }
}

/** Air changes are printed with two places, as testers do. */
function printedValue(field: Field, making: Making): Value {
  const value = drawnValue(field, making);
  return field === 'airChanges' ? { printed: Number(value.truth).toFixed(2), truth: value.truth } : value;
}

function labelOf(field: Field, { chance, half, spec }: Making): string {
  return chance.pick(spec.labels?.[field]?.[half] ?? labels[half][field]);
}

const spanSentences: Readonly<Record<Half, readonly ((months: number) => string)[]>> = {
  a: [
    (months) => `This permit is good for ${months} months from the date of issue.`,
    (months) =>
      months === 12
        ? 'This permit expires one year from date of issue.'
        : `This permit expires ${months} months from date of issue.`,
  ],
  b: [
    (months) => `Valid for a period of ${months === 18 ? 'eighteen (18)' : 'twelve (12)'} months after issuance.`,
    (months) => `This authorization shall lapse ${months} months from the date it was issued.`,
  ],
};

const layouts: Readonly<Record<Half, readonly Layout[]>> = {
  a: ['colon', 'columns', 'boxed', 'sentences', 'colon'],
  b: ['colon', 'dotted', 'boxed', 'sentences', 'table'],
};

interface Fields {
  readonly pairs: readonly (readonly [string, string])[];
  readonly sentence: string | undefined;
  readonly truth: Truth;
}

function fieldsOf(making: Making): Fields {
  const { spec, chance, half, from, to } = making;
  const pairs: (readonly [string, string])[] = [];
  const slots: Partial<Record<TruthSlot, string>> = {};
  const facts: Record<string, string | number> = {};
  const months = spec.good?.months ?? 0;
  const inWords = spec.good?.said === true && chance.yes(0.4);
  const take = (use: FieldUse) => {
    if (use.field === 'expires' && inWords) return;
    const { printed, truth } = printedValue(use.field, making);
    pairs.push([labelOf(use.field, making), printed]);
    for (const slot of use.slots ?? []) slots[slot] = String(truth);
    for (const fact of use.facts ?? []) facts[fact] = truth;
  };
  for (const use of spec.fields) take(use);
  const { number, parcel, address, owner } = slots;
  return {
    pairs,
    sentence: inWords ? chance.pick(spanSentences[half])(months) : undefined,
    truth: {
      kind: spec.kind,
      days: {
        ...(slots.issued === undefined ? {} : { issued: from }),
        ...(slots.effective === undefined
          ? {}
          : { effective: spec.kind === 'locate-ticket' ? addDays(from, 3) : from }),
        ...(slots.goodThrough === undefined && !inWords ? {} : { goodThrough: to }),
      },
      texts: {
        ...(number === undefined ? {} : { number }),
        ...(parcel === undefined ? {} : { parcel }),
        ...(address === undefined ? {} : { address }),
        ...(owner === undefined ? {} : { owner }),
      },
      facts,
    },
  };
}

function letterhead({ spec, cast, half, chance }: Making): Block {
  const office = chance.pick(spec.offices[half]);
  const top = {
    county: cast.county.toUpperCase(),
    firm: `${cast.town} ${office}`,
    insurer: cast.insurer,
    lender: cast.lender,
    board: 'State of residence',
  }[spec.from];
  return { sort: 'letterhead', lines: [top, office, `Phone ${cast.phone}`] };
}

/** What stands on real papers beside the answer: form furniture, receipts, print dates. */
function furniture({ chance, spec, print, from, half }: Making): readonly Block[] {
  const made: Block[] = [];
  if (spec.formExpires === true) {
    made.push({
      sort: 'foot',
      text: `OMB No. ${chance.pattern('####-####')}  Expiration Date: ${print(addDays(from, chance.whole(200, 700)))}`,
    });
  } else if (chance.yes(0.3)) {
    made.push({
      sort: 'foot',
      text: `Form ${chance.pattern('@@-##')}  Rev. 0${chance.whole(1, 9)}/2023${half === 'a' ? '  Form expires 12/31/2028' : '  This form valid until 06/30/2029'}`,
    });
  } else if (chance.yes(0.5)) {
    made.push({
      sort: 'foot',
      text: `Form ${chance.pattern('@-###')} (revised ${chance.whole(1, 12)}/${chance.whole(18, 23)})`,
    });
  }
  if (chance.yes(0.35))
    made.push({ sort: 'foot', text: `Printed ${print(addDays(from, chance.whole(1, 40)))}   Page 1 of 1` });
  if (chance.yes(0.3))
    made.push({
      sort: 'foot',
      text: `Receipt No. ${chance.pattern('#####')}   Fee paid $${chance.whole(4, 60) * 5}.00`,
    });
  return made;
}

/** Document `index` of the set: kinds take turns, halves too; each two hundred are a set of their own. */
export function composeDocument(index: number): SetDocument {
  const chance = new Chance(7919 * (index + 1));
  const spec = kinds[index % kinds.length];
  if (spec === undefined) throw new Error('no such document');
  const half: Half = Math.floor(index / kinds.length) % 2 === 0 ? 'a' : 'b';
  const from = someDay(chance);
  const making: Making = {
    chance,
    half,
    spec,
    cast: castFor(chance),
    print: datePrinter(chance),
    from,
    to: lastDay(spec, from),
  };
  const { pairs, sentence, truth } = fieldsOf(making);
  const layout = chance.pick(layouts[half]);
  const prose = spec.prose[half].map((text) => text.replace('{county}', making.cast.county));
  const blocks: Block[] = [letterhead(making), { sort: 'title', text: chance.pick(spec.titles[half]) }];
  if (chance.yes(0.2))
    blocks.push({ sort: 'stamp', text: `RECEIVED ${making.print(addDays(from, chance.whole(2, 30)))}` });
  blocks.push({ sort: 'pairs', layout, pairs });
  if (sentence !== undefined) blocks.push({ sort: 'text', text: sentence });
  blocks.push(...prose.map((text): Block => ({ sort: 'text', text })));
  blocks.push({ sort: 'signature', name: making.cast.official, date: chance.yes(0.5) ? making.print(from) : '' });
  blocks.push(...furniture(making));
  return { index, half, blocks, truth };
}

/** One of each kind, both halves: what every test run reads. */
export const smallSet: readonly number[] = kinds.map((_, kind) => kind + kinds.length * (kind % 10));
