import type { PaperReading, Suggestion } from '../../../intake/reading/reading-model.ts';
import { sameIdentity } from '../../../readiness/index.ts';
import { isDay } from '../../../vocabulary/days.ts';
import type { FactValue } from '../../../vocabulary/facts.ts';
import type { Identity, LotView } from '../../../vocabulary/lot.ts';
import { pagesInWords } from '../../../vocabulary/page-picks.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { factInWords } from '../../../vocabulary/said-facts.ts';
import type { ReadCut, ReadKind, ReadValue, TableSuggestion } from '../../contract/table-answers.ts';
import { kindTitle } from '../../named.ts';

/** From what reading found to what is offered: held against what the lot knows of itself, put as a person says it. */

const identityOf = { name: 'owner', address: 'place', 'parcel number': 'parcel' } as const;
const ownNames = {
  owner: 'It is a name of yours.',
  place: 'It is this lot’s own place.',
  parcel: 'It is this lot’s own parcel number.',
} as const;

function sortOf(value: FactValue): Identity['sort'] | undefined {
  const { sort } = value;
  return sort === 'name' || sort === 'address' || sort === 'parcel number' ? identityOf[sort] : undefined;
}

/** The lot's name for itself that stands for the others; undefined where none was noted. */
function ownName(sort: Identity['sort'], view: LotView): string | undefined {
  return view.identities.findLast((identity) => identity.sort === sort)?.text;
}

/** A parcel or place that is not the lot's speaks against the whole paper: it may have got among these by mistake. */
function strangeNote(
  sort: 'place' | 'parcel',
  found: Suggestion<string> | undefined,
  view: LotView,
): readonly string[] {
  const own = ownName(sort, view);
  if (found === undefined || own === undefined || found.sureness === 'guess') return [];
  if (sameIdentity(sort, [found.value, own], view) !== false) return [];
  const what = sort === 'parcel' ? 'parcel number' : 'address';
  return [`The ${what} on it, ${found.value}, is not this lot’s (${own}): see whether the paper is about your lot.`];
}

type Found = Suggestion<FactValue>;

/** What the lot is sure of makes what was read sure; what the lot says otherwise makes it a guess. */
function heldAgainst(found: Found, view: LotView): Pick<ReadValue, 'sureness' | 'doubts' | 'because'> {
  const { sureness, doubts, because, value } = found;
  const plain = { sureness, doubts, because: because?.words };
  const sort = sortOf(value);
  const own = sort === undefined ? undefined : ownName(sort, view);
  if (sort === undefined || own === undefined || typeof value.value !== 'string') return plain;
  const same = sameIdentity(sort, [value.value, own], view);
  if (same === true) return { sureness: 'sure', doubts: [], because: ownNames[sort] };
  if (same === 'unknown' || sort === 'owner') return plain;
  return { ...plain, sureness: 'guess', doubts: [...doubts, `This lot’s is ${own}.`] };
}

function said(value: FactValue): { readonly said: string; readonly words: string } {
  const words = factInWords(value);
  return { said: value.sort === 'day' ? value.value : words, words };
}

function readValue(found: Found, view: LotView): ReadValue {
  const { page, box, words: read } = found.place;
  return {
    ...said(found.value),
    ...heldAgainst(found, view),
    page,
    place: box,
    read,
    otherwise: found.otherwise.map(said),
  };
}

function asText(found: Suggestion<string> | undefined, view: LotView): ReadValue | undefined {
  if (found === undefined) return undefined;
  const value = (text: string): FactValue =>
    isDay(text) ? { sort: 'day', value: text } : { sort: 'text', value: text };
  return readValue({ ...found, value: value(found.value), otherwise: found.otherwise.map(value) }, view);
}

function kindsOf({ kinds }: PaperReading, practice: Practice): readonly ReadKind[] {
  return kinds
    .filter(({ kind }) => Object.hasOwn(practice.papers, kind))
    .map(({ kind, sureness, because }) => ({
      kind,
      title: kindTitle(practice, kind),
      sureness,
      because: because.map(({ words }) => words),
    }));
}

function cutsOf({ cuts = [] }: PaperReading, practice: Practice): readonly ReadCut[] {
  return cuts.map(({ from, to, kind, because }) => {
    const known = kind !== undefined && Object.hasOwn(practice.papers, kind) ? kind : undefined;
    return {
      pages: pagesInWords(Array.from({ length: to - from + 1 }, (_, n) => from + n)),
      kind: known,
      title: known === undefined ? 'A paper' : kindTitle(practice, known),
      because,
    };
  });
}

export interface SuggestedFor {
  readonly practice: Practice;
  readonly view: LotView;
}

export type Offered = Omit<TableSuggestion, 'pages' | 'blank' | 'again'>;

/** What reading found, as it is offered for this lot. Nothing is dropped: what doesn't fit is offered as a guess. */
export function offeredOf(reading: PaperReading, { practice, view }: SuggestedFor): Offered {
  const { effective, goodThrough, number, issuer, parcel, address } = reading;
  return {
    kinds: kindsOf(reading, practice),
    kind: reading.kind,
    cuts: cutsOf(reading, practice),
    issued: asText(reading.issued, view),
    effective: asText(effective, view),
    goodThrough: asText(goodThrough, view),
    number: asText(number, view),
    issuer: asText(issuer, view),
    facts: Object.fromEntries(Object.entries(reading.facts).map(([fact, found]) => [fact, readValue(found, view)])),
    notes: [...strangeNote('parcel', parcel, view), ...strangeNote('place', address, view), ...reading.notes],
  };
}
