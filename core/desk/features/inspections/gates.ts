import { type Asked, readHolds } from '../../../readiness/index.ts';
import { comesOut } from '../../../vocabulary/coming-out.ts';
import type { GateRow } from '../../contract/inspection-answers.ts';
import { recordedOf } from '../written/recorded.ts';

/** Holds that wait for somebody to come and look, with what is recorded of each; shut ones first. */
export function gateRows(asked: Asked): readonly GateRow[] {
  const { practice } = asked;
  const rows = readHolds(asked).flatMap((reading): readonly GateRow[] => {
    const { hold, title, say, event, waitsFor, happened, applies } = reading;
    const until = practice.holds[hold]?.until ?? [];
    const looked = until.flatMap((id) => practice.errands[id] ?? []);
    if (!looked.some(comesOut)) return [];
    const rests = looked.flatMap(({ id }) =>
      recordedOf(asked, id).map(({ title: errand, settled, say: recorded, subject }) => ({
        errand: id,
        subject,
        title: errand,
        settled,
        recorded,
      })),
    );
    const unknown = applies === 'unknown';
    const eventTitle = practice.events[event]?.title ?? event;
    return [{ hold, title, say, event, eventTitle, shut: waitsFor.length > 0 || unknown, unknown, happened, rests }];
  });
  return [...rows.filter(({ shut }) => shut), ...rows.filter(({ shut }) => !shut)];
}
