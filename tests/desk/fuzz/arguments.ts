import * as z from 'zod';
import type { Chance } from '../../intake/fuzz/chance.ts';
import type { KnownWords } from './known-words.ts';
import { oddDay, oddNumber, oddThing, oddWord, soundDay } from './odd-values.ts';

export interface Making {
  readonly chance: Chance;
  readonly known: KnownWords;
  readonly request: string;
  /** Every value may be an odd one; otherwise all are such as a person would give. */
  readonly wild: boolean;
  /** A ticket for the field: a file of some sort, or a folder. */
  readonly ticket: (field: string) => string;
}

type Schema = z.core.$ZodType;

/** The first letter of the row ids a field takes; of `row` it hangs on the request. */
const letters: Readonly<Record<string, string>> = {
  edition: 'e',
  evidence: 'e',
  packet: 'k',
  handover: 'h',
  visit: 'v',
  records: 'r',
  subject: 's',
  firm: 's',
  line: 'c',
  invoice: 'i',
  draw: 'd',
  notice: 'n',
  work: 'c',
  stored: 'c',
  'row of cost-line': 'c',
  'row of change-order': 'o',
  'row of invoice': 'i',
  'row of payment': 'm',
  'row of waiver': 'w',
  'row of notice': 'n',
  'row of draw': 'd',
};

/** In which fields of answers a word for this field may have stood. */
const alike: Readonly<Record<string, readonly string[]>> = {
  paper: ['paper', 'kind', 'title'],
  papers: ['paper', 'kind'],
  to: ['edition', 'paper', 'kind'],
  answer: ['choices', 'answer', 'value'],
  comment: ['comment', 'id'],
  word: ['word', 'act'],
  item: ['item', 'name'],
  marks: ['marks', 'mark'],
  text: ['text', 'title', 'number'],
};

/** What a person would write freely. */
const plainly = ['title', 'note', 'reason', 'why', 'who', 'to', 'how', 'recipient', 'override', 'words', 'place'];
const pagePicks = ['', '1', '1-2', '2,1', '1-3, 5', '99999', '3-1', '0'];
const amounts = ['62,000 usd', '$1,250.50', '-300', '0', '1', '12.345', '1e5', '999999999999'];

function aText(field: string, schema: Schema, { chance, known, request, wild, ticket }: Making): string {
  if (z.globalRegistry.get(schema)?.takes === 'file') {
    return wild && chance.below(12) === 0 ? `t-${oddWord(chance)}` : ticket(field);
  }
  if (/amount|agreed|estimate|held/i.test(field) && (!wild || chance.below(3) > 0)) return chance.of(amounts);
  if (field === 'pages' && (!wild || chance.below(3) > 0)) return chance.of(pagePicks);
  if (!wild && plainly.includes(field)) return chance.of(['A word of mine', 'Wilma’s, 2nd (draft)', '1']);
  const letter = letters[field] ?? letters[`${field} of ${request}`];
  const id = letter !== undefined && chance.below(wild ? 3 : 12) > 0 ? known.id(letter, chance) : undefined;
  if (id !== undefined) return id;
  const word = wild && chance.below(2) === 0 ? undefined : known.of(alike[field] ?? [field, 'id'], chance);
  return word ?? (wild ? oddWord(chance) : 'A word of mine');
}

function aList(field: string, element: Schema, making: Making): readonly unknown[] {
  const { chance } = making;
  const length = chance.below(40) === 0 ? chance.of([3, 201, 501, 1001]) : chance.below(3);
  // Many of one are as good as many made one by one, and sooner there.
  if (length > 3) return Array.from({ length }).fill(valueFor(field, element, making));
  return Array.from({ length }, () => valueFor(field, element, making));
}

function anObject(schema: z.ZodObject, making: Making): Record<string, unknown> {
  const made: Record<string, unknown> = {};
  for (const [field, inner] of Object.entries(schema.shape)) {
    const value = valueFor(field, inner, making);
    if (value !== undefined) made[field] = value;
  }
  return made;
}

function aRecord(field: string, making: Making): Record<string, unknown> {
  const { chance, known } = making;
  const pairs = Array.from({ length: chance.below(3) }, (): [string, unknown] => [
    making.wild && chance.below(3) === 0 ? oddWord(chance) : (known.id(letters[field] ?? '', chance) ?? 'bedrooms'),
    field === 'choices' ? chance.of(['mine', 'theirs']) : chance.of(amounts),
  ]);
  return Object.fromEntries(pairs);
}

/** A value the schema might take: most do get past it, some only just don't. */
export function valueFor(field: string, schema: Schema, making: Making): unknown {
  const { chance, wild } = making;
  if (schema instanceof z.ZodObject) return anObject(schema, making);
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) {
    return chance.below(5) < 3 ? undefined : valueFor(field, schema.unwrap(), making);
  }
  if (schema instanceof z.ZodArray) return aList(field, schema.element, making);
  if (schema instanceof z.ZodRecord) return aRecord(field, making);
  if (schema instanceof z.ZodUnion) return valueFor(field, chance.of(schema.options), making);
  if (schema instanceof z.ZodEnum) return wild && chance.below(10) === 0 ? oddWord(chance) : chance.of(schema.options);
  if (schema instanceof z.ZodBoolean) return chance.below(2) === 0;
  if (schema instanceof z.ZodNumber) return wild && chance.below(2) === 0 ? oddNumber(chance) : chance.below(20);
  if (schema instanceof z.ZodString || schema instanceof z.ZodEmail) return aText(field, schema, making);
  if (schema instanceof z.ZodCustom) return wild && chance.below(4) === 0 ? oddDay(chance) : soundDay(chance);
  throw new Error(`The fuzz does not know schemas of type "${schema._zod.def.type}" yet: teach it here.`);
}

/** Where one may put something else: every field of the argument, at any depth. */
function placesIn(value: unknown, found: [object, string][] = []): [object, string][] {
  if (typeof value !== 'object' || value === null) return found;
  for (const [key, inner] of Object.entries(value).slice(0, 50)) {
    found.push([value, key]);
    placesIn(inner, found);
  }
  return found;
}

/** An argument for a request: as it should be, or with one or two things in it as they should not be. */
export function argumentFor(schema: Schema, making: Making): unknown {
  const { chance } = making;
  if (making.wild && chance.below(30) === 0) return oddThing(chance);
  const made = valueFor('', schema, making);
  if (!making.wild || chance.below(2) === 0) return made;
  for (let n = 1 + chance.below(2); n > 0; n -= 1) {
    const places = placesIn(made);
    if (places.length === 0) return chance.below(2) === 0 ? made : oddThing(chance);
    const [holder, key] = chance.of(places);
    if (chance.below(5) === 0) Reflect.deleteProperty(holder, key);
    else Reflect.set(holder, key, oddThing(chance));
  }
  return made;
}
