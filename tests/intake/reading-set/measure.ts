import type { PaperReading, Suggestion } from '../../../core/intake/reading/reading-model.ts';
import type { FactValue } from '../../../core/vocabulary/facts.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import type { SetDocument, Truth } from './compose.ts';

export type Group = 'kind' | 'dates' | 'numbers' | 'parcels' | 'addresses' | 'names' | 'facts';
export const groups: readonly Group[] = ['kind', 'dates', 'numbers', 'parcels', 'addresses', 'names', 'facts'];

/** One thing asked of the reading, and what came. */
export interface Outcome {
  readonly index: number;
  readonly group: Group;
  readonly what: string;
  readonly wanted: string;
  readonly got: string | undefined;
  readonly right: boolean;
  readonly sureness: Suggestion<unknown>['sureness'] | undefined;
}

const plain = (text: string) =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '');

/** The same to the letter, but for spaces and marks: two spellings are not the same number. */
function sameNumber(got: string, wanted: string): boolean {
  return got.replace(/\s/g, '') === wanted.replace(/\s/g, '');
}

/** The town may follow the street. */
function sameAddress(got: string, wanted: string): boolean {
  return plain(got) === plain(wanted) || got.startsWith(`${wanted},`);
}

function factText(value: FactValue): string {
  return value.sort === 'elevation' ? String(value.value.feet) : String(value.value);
}

type Same = (got: string, wanted: string) => boolean;

function sameFact(value: FactValue): Same {
  switch (value.sort) {
    case 'parcel number':
      return sameNumber;
    case 'address':
      return sameAddress;
    case 'text':
    case 'name':
    case 'choice':
    case 'revision':
      return (got, wanted) => plain(got) === plain(wanted);
    default:
      return (got, wanted) => got === wanted;
  }
}

interface Asked {
  readonly group: Group;
  readonly what: string;
  readonly wanted: string;
  readonly suggestion: Suggestion<string> | undefined;
  readonly same: Same;
}

function asked(truth: Truth, reading: PaperReading, practice: Practice): readonly Asked[] {
  const exact: Same = (got, wanted) => got === wanted;
  const days = (['issued', 'effective', 'goodThrough'] as const).flatMap((what) => {
    const wanted = truth.days[what];
    return wanted === undefined
      ? []
      : [{ group: 'dates' as const, what, wanted, suggestion: reading[what], same: exact }];
  });
  const texts = (
    [
      ['number', 'numbers', sameNumber],
      ['parcel', 'parcels', sameNumber],
      ['address', 'addresses', sameAddress],
      ['owner', 'names', (a: string, b: string) => plain(a) === plain(b)],
    ] as const
  ).flatMap(([what, group, same]) => {
    const wanted = truth.texts[what];
    return wanted === undefined ? [] : [{ group, what, wanted, suggestion: reading[what], same }];
  });
  // Only what the kind asks for is asked here.
  const wantedFacts = Object.entries(truth.facts).filter(
    ([id]) => practice.papers[truth.kind]?.facts[id] !== undefined,
  );
  const facts = wantedFacts.map(([id, wanted]): Asked => {
    const fact = reading.facts[id];
    const suggestion = fact === undefined ? undefined : { ...fact, value: factText(fact.value), otherwise: [] };
    const group = typeof wanted === 'string' && /^\d{4}-\d\d-\d\d$/.test(wanted) ? 'dates' : 'facts';
    return {
      group,
      what: id,
      wanted: String(wanted),
      suggestion,
      same: fact === undefined ? exact : sameFact(fact.value),
    };
  });
  return [...days, ...texts, ...facts];
}

/** Holds one reading against what was printed. A value that was found where none is printed counts as wrong too. */
export function judge({ index, truth }: SetDocument, reading: PaperReading, practice: Practice): readonly Outcome[] {
  const kind = reading.kinds[0];
  const outcomes: Outcome[] = [
    {
      index,
      group: 'kind',
      what: 'kind',
      wanted: truth.kind,
      got: kind?.kind,
      right: kind?.kind === truth.kind,
      sureness: kind?.sureness,
    },
  ];
  for (const { group, what, wanted, suggestion, same } of asked(truth, reading, practice)) {
    const got = suggestion?.value;
    outcomes.push({
      index,
      group,
      what,
      wanted,
      got,
      right: got !== undefined && same(got, wanted),
      sureness: suggestion?.sureness,
    });
  }
  for (const what of ['issued', 'effective', 'goodThrough'] as const) {
    const invented = truth.days[what] === undefined ? reading[what] : undefined;
    // A test's or inspection's own day may stand for the date of issue; it says so itself.
    if (invented === undefined || Object.values(truth.facts).includes(invented.value)) continue;
    outcomes.push({
      index,
      group: 'dates',
      what,
      wanted: 'nothing',
      got: invented.value,
      right: false,
      sureness: invented.sureness,
    });
  }
  return outcomes;
}

export interface Figures {
  readonly right: number;
  readonly of: number;
  readonly sure: number;
  readonly sureAndWrong: number;
}

export function figuresOf(outcomes: readonly Outcome[], group: Group): Figures {
  const own = outcomes.filter((outcome) => outcome.group === group);
  const sure = own.filter((outcome) => outcome.sureness === 'sure');
  return {
    right: own.filter((outcome) => outcome.right).length,
    of: own.length,
    sure: sure.length,
    sureAndWrong: sure.filter((outcome) => !outcome.right).length,
  };
}

/** A row for each group: right of asked, how many were sure, how many of these were wrong. */
export function tableOf(outcomes: readonly Outcome[]): string {
  return groups
    .map((group) => {
      const { right, of, sure, sureAndWrong } = figuresOf(outcomes, group);
      const share = of === 0 ? '-' : `${((100 * right) / of).toFixed(1)} %`;
      return `${group.padEnd(10)} ${`${right} of ${of}`.padStart(11)} ${share.padStart(8)}   sure ${String(sure).padStart(4)}, wrong among them ${sureAndWrong}`;
    })
    .join('\n');
}
