import type { Day } from '../../core/vocabulary/days.ts';
import { asDay } from '../../core/vocabulary/days.ts';
import type { Edition, LotView, Paper, Visit } from '../../core/vocabulary/lot.ts';
import type { Basis, Clock, Errand, Need, Office, PaperKind, Practice } from '../../core/vocabulary/practice.ts';
import { bareDelivery, bareKind, bareNeed, common } from '../practice/bare-rules.ts';

export { common };

/** Small practices and lots, made whole from the parts a test cares about. */

export const told: Basis = { on: 'the office told us', who: 'R. Amsel', day: '2026-04-02' };

export function d(text: string): Day {
  return asDay(text);
}

export function office(id: string, extra: Partial<Office> = {}): Office {
  return { id, title: `The ${id} office`, sort: 'building', exists: true, basis: common, ...extra };
}

export function kind(id: string, extra: Partial<PaperKind> = {}): PaperKind {
  return {
    id,
    title: `The ${id}`,
    from: 'desk',
    ...bareKind,
    ...extra,
  };
}

export function need(id: string, extra: Partial<Need> = {}): Need {
  return {
    id,
    kinds: [id],
    ...bareNeed,
    basis: told,
    ...extra,
  };
}

export function errand(id: string, extra: Partial<Errand> = {}): Errand {
  return {
    id,
    title: `Go for ${id}`,
    office: 'desk',
    stretch: 'before the permit',
    inspection: false,
    restarts: [],
    bring: [],
    ask: [],
    needs: [],
    before: [],
    yields: [],
    causes: [],
    deliver: bareDelivery,
    basis: common,
    ...extra,
  };
}

function keyed<T extends { readonly id: string }>(items: readonly T[] | undefined): Record<string, T> {
  return Object.fromEntries((items ?? []).map((item) => [item.id, item]));
}

type Lists = {
  readonly [K in
    | 'offices'
    | 'questions'
    | 'events'
    | 'papers'
    | 'errands'
    | 'agreements'
    | 'duties'
    | 'holds']?: readonly Practice[K][string][];
};

export function practice(lists: Lists & { readonly holidays?: readonly Day[] }): Practice {
  return {
    title: 'A small practice',
    layers: ['test'],
    offices: { desk: office('desk'), ...keyed(lists.offices) },
    questions: keyed(lists.questions),
    events: keyed(lists.events),
    papers: keyed(lists.papers),
    errands: keyed(lists.errands),
    agreements: keyed(lists.agreements),
    duties: keyed(lists.duties),
    holds: keyed(lists.holds),
    holidays: lists.holidays ?? [],
  };
}

export function edition(id: string, extra: Partial<Edition> = {}): Edition {
  return {
    id,
    paper: '',
    received: extra.issued ?? d('2026-01-05'),
    facts: {},
    marks: [],
    standings: [],
    links: [],
    physicalOnly: false,
    sealed: false,
    readable: true,
    pages: 1,
    sheets: ['letter'],
    ...extra,
  };
}

/** A paper of a kind with its editions; the id of the paper is written into them. */
export function paper(kindId: string, editions: readonly Edition[], extra: Partial<Paper> = {}): Paper {
  const id = extra.id ?? `paper-${kindId}${extra.subject === undefined ? '' : `-${extra.subject}`}`;
  return { id, kind: kindId, title: kindId, editions: editions.map((one) => ({ ...one, paper: id })), ...extra };
}

export function visit(errandId: string, day: Day, extra: Partial<Visit> = {}): Visit {
  return { id: `visit-${errandId}-${day}`, errand: errandId, day, state: 'settled', ...extra };
}

export function lot(extra: Partial<LotView> = {}): LotView {
  return {
    title: 'A lot',
    answers: {},
    identities: [],
    sameAs: [],
    subjects: [],
    events: [],
    papers: [],
    visits: [],
    ...extra,
  };
}

/** A kind with one clock (or several), for the many tests about clocks. */
export function clocked(
  id: string,
  clocks: readonly (Clock | DistributiveOmit<Clock, 'label'>)[],
  extra: Partial<PaperKind> = {},
): PaperKind {
  return kind(id, { clocks: clocks.map((clock, at) => ({ label: `clock ${at + 1}`, ...clock })), ...extra });
}

type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;
