import type { FactValue } from '../../vocabulary/facts.ts';
import type { FactId, FactRule, PaperKind } from '../../vocabulary/practice.ts';
import { candidatesOf, chooseValue, type Wanted } from './choose-value.ts';
import { factWords } from './fact-words.ts';
import { folded } from './folded.ts';
import type { LabelHit, Labels } from './labels.ts';
import { type PageText, plainText } from './page-text.ts';
import type { DateHabit, PaperDays } from './read-days.ts';
import { chooseDay, datesAt } from './read-days.ts';
import type { Suggestion } from './reading-model.ts';
import { saidInLine } from './said-in-line.ts';
import { readValue } from './values.ts';

/** What is already read of the paper and serves its facts too. */
export interface AlreadyRead {
  readonly days: PaperDays;
  readonly parcel?: Suggestion<string> | undefined;
  readonly address?: Suggestion<string> | undefined;
  readonly owner?: Suggestion<string> | undefined;
  readonly firm?: Suggestion<string> | undefined;
  readonly number?: Suggestion<string> | undefined;
}

/** The labels by which a fact may go: the list's, its title, its id. */
export function labelsOfFact(fact: FactRule): readonly string[] {
  return [...new Set([...(factWords[fact.id] ?? []), fact.title.toLowerCase(), fact.id.replaceAll('_', ' ')])];
}

function as<T>(
  suggestion: Suggestion<T> | undefined,
  make: (value: T) => FactValue,
): Suggestion<FactValue> | undefined {
  if (suggestion === undefined) return undefined;
  return { ...suggestion, value: make(suggestion.value), otherwise: suggestion.otherwise.map(make) };
}

/** Facts that every paper words alike are read once, for all kinds. */
function shared(fact: FactRule, read: AlreadyRead): Suggestion<FactValue> | undefined {
  const { sort } = fact;
  if (sort === 'parcel number') return as(read.parcel, (value) => ({ sort, value }));
  if (sort === 'address') return as(read.address, (value) => ({ sort, value }));
  if (sort === 'name' && fact.id === 'firm') return as(read.firm, (value) => ({ sort, value }));
  if (sort === 'name') return as(read.owner, (value) => ({ sort, value }));
  if (sort === 'text' && /^licen[cs]e$/.test(fact.id)) return as(read.number, (value) => ({ sort, value }));
  if (sort !== 'day') return undefined;
  const day = { cover_from: read.days.effective, cover_to: read.days.goodThrough, issued_on: read.days.issued }[
    fact.id
  ];
  return as(day, (value) => ({ sort, value }));
}

/** The zones of flood insurance rate maps (44 CFR 64.3): anything else in that place was misread. */
const floodZone = /^(?:A|AE|AH|AO|AR|A99|A\d{1,2}|V|VE|V\d{1,2}|X|B|C|D)$/;

/** What an inspection, a laboratory or an office may say of a thing: any other word there is no result. */
const outcome =
  /pass|fail|approv|partial|satisf|absent|present|accept|complian|comply|meets|correct|reject|denied|no access|cancel|complete|ok\b|negative|positive/i;

/** Values that can't be the fact, whatever label they stand at. */
function possible(id: string, fact: FactValue): boolean {
  if (id === 'result') return fact.sort === 'text' && outcome.test(fact.value);
  if (id === 'bedrooms') return fact.sort === 'count' && fact.value > 0 && fact.value <= 20;
  if (id === 'air_changes') return fact.sort === 'number' && fact.value < 60;
  if (id === 'tax_year') return fact.sort === 'count' && fact.value > 1900 && fact.value < 2200;
  if (id === 'revision')
    return fact.sort === 'revision' && /^(?:rev(?:ision)?\.?\s*)?(?:[A-Z]|\d{1,2})$/i.test(fact.value);
  return true;
}

function wantedOf(fact: FactRule, pages: readonly PageText[]): Wanted<FactValue> {
  const { sort } = fact;
  if (sort === 'day') throw new Error('days are read elsewhere');
  const texts = new Map(pages.map((page) => [page, plainText(page)]));
  return {
    read: (words, label) => {
      const read = readValue(sort, words, texts.get(label.page) ?? '');
      if (read !== undefined && !possible(fact.id, read.value)) return undefined;
      if (fact.id !== 'flood_zone' || read === undefined) return read;
      const zone = (words[0]?.text ?? '').replace(/[.,;]$/, '').toUpperCase();
      return floodZone.test(zone) ? { value: { sort: 'text', value: zone }, from: 0, to: 1 } : undefined;
    },
    // The fuller label is the better one: "Base Flood Elevation", not "Zone".
    bonus: (label) => Math.min(0.9, label.phrase.folded.length / 30),
    letters: ['text', 'name', 'address', 'choice', 'revision'].includes(sort),
    key: (fact) => JSON.stringify(fact.value),
  };
}

/** One fact: through its own labels, or what was read for every paper. */
function readFact(
  fact: FactRule,
  at: {
    readonly pages: readonly PageText[];
    readonly labels: Labels;
    readonly habit: DateHabit;
    readonly read: AlreadyRead;
  },
): Suggestion<FactValue> | undefined {
  const common = shared(fact, at.read);
  if (common !== undefined) return common;
  const known = new Set(labelsOfFact(fact).map(folded));
  const hits = at.labels.hits.filter((hit: LabelHit) => known.has(hit.phrase.folded));
  const { sort } = fact;
  if (sort === 'day') {
    const dates = hits.flatMap((hit) => datesAt(hit, at.labels, at.habit.today).slice(0, 1));
    return as(
      chooseDay(
        dates.map((date) => ({ ...date, rank: Math.max(date.rank, date.label.own ? 2 : 1) })),
        at.habit,
      ),
      (value) => ({ sort, value }),
    );
  }
  const wanted = wantedOf(fact, at.pages);
  return chooseValue([...candidatesOf(hits, at.labels, wanted), ...saidInLine(fact, at.pages)], wanted);
}

/** The facts that the kind asks for, as far as they can be read. */
export function readFacts(
  kind: PaperKind,
  at: Parameters<typeof readFact>[1],
): Readonly<Record<FactId, Suggestion<FactValue>>> {
  return Object.fromEntries(
    Object.values(kind.facts).flatMap((fact) => {
      const found = readFact(fact, at);
      return found === undefined ? [] : [[fact.id, found]];
    }),
  );
}
