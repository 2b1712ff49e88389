import { readWay } from '../../../readiness/index.ts';
import { comesOut } from '../../../vocabulary/coming-out.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { onLot } from '../../context.ts';
import type { InspectionsAnswer } from '../../contract/inspection-answers.ts';
import { requests } from '../../contract/requests.ts';
import { heldHere } from '../amend-rows.ts';
import { askedOf, officeTitle } from '../asked.ts';
import { correctionRows } from './corrections.ts';
import { gateRows } from './gates.ts';
import { idleRows } from './idle-rows.ts';
import { inspectionRow } from './inspection-row.ts';

function offeredRows(practice: Practice): InspectionsAnswer['offered'] {
  return Object.values(practice.offered ?? {})
    .filter(comesOut)
    .map((errand) => ({
      errand: errand.id,
      title: errand.title,
      office: officeTitle(practice, errand.office),
      rule: heldHere(errand, false),
    }));
}

/** Everything somebody comes out to look at, from the first stake to the last correction. */
export const inspections = onLot(requests.inspections, (_input, at): InspectionsAnswer => {
  const asked = askedOf(at);
  const { practice, day } = asked;
  const stops = readWay(asked).stops.filter(({ errand: id, state }) => {
    const errand = practice.errands[id];
    return errand !== undefined && state !== "doesn't apply" && comesOut(errand);
  });
  return {
    day,
    rows: stops.flatMap((stop) => {
      const errand = practice.errands[stop.errand];
      return errand === undefined ? [] : [inspectionRow(stop, errand, asked)];
    }),
    gates: gateRows(asked),
    idle: idleRows(asked),
    corrections: correctionRows(stops, asked, at.lot),
    offered: offeredRows(practice),
  };
});
