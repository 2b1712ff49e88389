import type { Asked } from '../../readiness/index.ts';
import type { NeedReading } from '../../vocabulary/finding.ts';
import type { Errand } from '../../vocabulary/practice.ts';
import type { CarryRow } from '../contract/shown-rows.ts';
import { kindTitle } from '../named.ts';
import { subjectTitle, titleFor } from './asked.ts';

/** A need as something to carry: what, how, and whether anything speaks against it. */
export function carryRow(need: NeedReading, errand: Errand, asked: Asked): CarryRow {
  const rule = errand.needs.find(({ id }) => id === need.need);
  return {
    need: need.need,
    kind: need.kind,
    title: titleFor(kindTitle(asked.practice, need.kind), subjectTitle(asked.lot, need.subject)),
    use: rule?.use ?? 'leave',
    copies: rule?.copies ?? 1,
    state: need.state,
    edition: need.edition,
    good: need.edition !== undefined && need.findings.every(({ weight }) => weight === 'good to know'),
  };
}
