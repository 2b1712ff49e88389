import type { ReadValue, TableSuggestion } from '../../../core/desk/contract/table-answers.ts';
import { type Day, isDay } from '../../../core/vocabulary/days.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import type { Draft } from './table-state.ts';

/** What was read, as something to take into the card: each by itself, or all that are sure. */

export type OfferId = 'issued' | 'effective' | 'goodThrough' | 'number' | 'issuer' | `fact ${string}`;

export interface Offer {
  readonly id: OfferId;
  /** The field it would go into. */
  readonly title: string;
  readonly value: ReadValue;
  /** The card says so already. */
  readonly taken: boolean;
  /** Something else stands there. */
  readonly other: boolean;
  readonly take: (draft: Draft, said?: string) => Draft;
}

function day(said: string): Day | undefined {
  return isDay(said) ? said : undefined;
}

interface Slot {
  readonly id: OfferId;
  readonly title: string;
  readonly value: ReadValue | undefined;
  readonly now: (draft: Draft) => string;
  readonly put: (draft: Draft, said: string) => Draft;
}

function slotsOf(read: TableSuggestion, practice: Practice, kind: string | undefined): readonly Slot[] {
  const rules = kind === undefined ? {} : (practice.papers[kind]?.facts ?? {});
  return [
    {
      id: 'issued',
      title: 'Issued',
      value: read.issued,
      now: ({ issued }) => issued ?? '',
      put: (draft, said) => ({ ...draft, issued: day(said) }),
    },
    {
      id: 'goodThrough',
      title: 'Good through',
      value: read.goodThrough,
      now: ({ goodThrough }) => goodThrough ?? '',
      put: (draft, said) => ({ ...draft, goodThrough: day(said) }),
    },
    {
      id: 'number',
      title: 'Number',
      value: read.number,
      now: ({ number }) => number.trim(),
      put: (draft, said) => ({ ...draft, number: said }),
    },
    {
      id: 'effective',
      title: 'In force from',
      value: read.effective,
      now: ({ effective }) => effective ?? '',
      put: (draft, said) => ({ ...draft, effective: day(said) }),
    },
    {
      id: 'issuer',
      title: 'Issued by',
      value: read.issuer,
      now: ({ issuer }) => issuer.trim(),
      put: (draft, said) => ({ ...draft, issuer: said }),
    },
    ...Object.values(rules).map(
      ({ id, title }): Slot => ({
        id: `fact ${id}`,
        title,
        value: read.facts[id],
        now: ({ facts }) => (facts[id] ?? '').trim(),
        put: (draft, said) => ({ ...draft, facts: { ...draft.facts, [id]: said } }),
      }),
    ),
  ];
}

/** Everything that was read for the kind of the draft, in the order of its fields. */
export function offersOf(read: TableSuggestion | undefined, draft: Draft, practice: Practice): readonly Offer[] {
  if (read === undefined) return [];
  return slotsOf(read, practice, draft.kind ?? read.kind).flatMap(({ id, title, value, now, put }): Offer[] => {
    if (value === undefined) return [];
    const there = now(draft);
    return [
      {
        id,
        title,
        value,
        taken: there === value.said,
        other: there !== '' && there !== value.said,
        take: (into, said = value.said) => put(into, said),
      },
    ];
  });
}

/** What "take all that are sure" would take: empty fields only, and the kind where it is sure and none is said. */
export function sureOnes(
  read: TableSuggestion | undefined,
  draft: Draft,
  practice: Practice,
): { readonly count: number; readonly take: (draft: Draft) => Draft } {
  const [kind] = read?.kinds ?? [];
  const takesKind = draft.kind === undefined && kind?.sureness === 'sure';
  const sure = offersOf(read, draft, practice).filter(
    ({ value, taken, other }) => value.sureness === 'sure' && !taken && !other,
  );
  return {
    count: sure.length + (takesKind ? 1 : 0),
    take: (from) => {
      const begun = takesKind ? { ...from, kind: kind.kind, links: [] } : from;
      return sure.reduce((into, offer) => offer.take(into), begun);
    },
  };
}
