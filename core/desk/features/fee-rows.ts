import { type Asked, feeDue, feesAgain, readWay } from '../../readiness/index.ts';
import type { WayStop } from '../../vocabulary/finding.ts';
import type { CostsAnswer, FeeRow } from '../contract/cost-answers.ts';
import { errandTitle, officeTitle, subjectTitle, titleFor } from './asked.ts';

/** The offices' fees of the whole way, row by row. */

/** Undefined where an errand has no fee to tell of. */
function feeRow({ errand: id, subject, state }: WayStop, asked: Asked): FeeRow | undefined {
  const errand = asked.practice.errands[id];
  if (errand === undefined || state === "doesn't apply") return undefined;
  const { fee, feeNote, office } = errand;
  const { again, unpaid } = feeDue(id, { ...asked, subject });
  const ahead = state === 'can go' || state === "can't go yet" || (state === 'sent back' && unpaid === true);
  if (fee === 0 || (fee === undefined && feeNote === undefined && !ahead)) return undefined;
  const title = titleFor(errandTitle(asked.practice, id), subjectTitle(asked.lot, subject));
  // Who has to come again has been there, and paid for it.
  const settled = !ahead || again;
  return { errand: id, title, office: officeTitle(asked.practice, office), fee, feeNote, settled };
}

/** What coming again cost so far, whether or not it was passed since, and what it costs the next time. */
function againRows({ errand: id, subject, state }: WayStop, asked: Asked): readonly FeeRow[] {
  const errand = asked.practice.errands[id];
  if (errand === undefined || state === "doesn't apply") return [];
  const title = titleFor(errandTitle(asked.practice, id), subjectTitle(asked.lot, subject));
  const row = { errand: id, office: officeTitle(asked.practice, errand.office) };
  const { times, each } = feesAgain(id, { ...asked, subject });
  const paid = times === 0 || each === undefined || each === 0 ? [] : [{ times, fee: each * times, settled: true }];
  const due = feeDue(id, { ...asked, subject });
  const ahead = due.again && state !== 'left with them' && due.fee !== 0;
  return [...paid, ...(ahead ? [{ times: 1, fee: due.fee, settled: false }] : [])].map((one) => ({
    ...row,
    title: `${title}, ${one.times === 1 ? 'coming again' : `coming again ${one.times} times`}`,
    fee: one.fee,
    settled: one.settled,
  }));
}

/**
 * The offices' fees of the whole way: the first price of what was settled, lies with an office or came back, what was
 * owed for coming again, and what is ahead as the way counts it, the price of coming again included.
 */
export function feesOf(asked: Asked): CostsAnswer['fees'] {
  const { stops, feesKnown, feesUnknown } = readWay(asked);
  const rows = stops.flatMap((stop) => [feeRow(stop, asked) ?? [], againRows(stop, asked)].flat());
  const settled = rows.reduce((total, row) => total + (row.settled ? (row.fee ?? 0) : 0), 0);
  return { known: settled + feesKnown, settled, unknown: feesUnknown, rows };
}
