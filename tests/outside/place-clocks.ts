import { validityOf } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Edition, LotEvent, Visit } from '../../core/vocabulary/lot.ts';
import type { Clock, Extension, VisitOutcome } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, paper, practice, visit } from '../readiness/making.ts';

/** Rules that real places publish, as data, dated as they say. Rules change: these are the pages as once stored. */
export interface Place {
  readonly clocks: readonly Clock[];
  readonly extension?: Extension;
}

export interface Case {
  readonly issued?: Day;
  readonly edition?: Partial<Edition>;
  readonly inspections?: readonly (readonly [Day, VisitOutcome])[];
  readonly events?: readonly LotEvent[];
  readonly extensions?: readonly Day[];
}

export const label = 'clock';
export const to180 = { days: 180 };

export function throughOf(place: Place, given: Case, day: Day = d('2026-02-01')): string {
  const rules = practice({
    papers: [clocked('permit', place.clocks, { extension: place.extension }), kind('extension')],
    errands: [errand('inspect', { inspection: true, restarts: ['permit'] })],
  });
  const own = edition('permit-1', {
    issued: given.issued,
    received: given.issued ?? d('2020-01-01'),
    ...given.edition,
  });
  const visits: Visit[] = (given.inspections ?? []).map(([at, outcome]) => visit('inspect', at, { outcome }));
  const grants = (given.extensions ?? []).map((at, n) =>
    edition(`grant-${n}`, { issued: at, links: [{ word: 'extends', to: 'permit-1' }] }),
  );
  const view = lot({
    papers: [paper('permit', [own]), paper('extension', grants)],
    visits,
    events: given.events ?? [],
  });
  return validityOf(view.papers[0]?.editions[0] ?? own, { practice: rules, lot: view, day }).through;
}
