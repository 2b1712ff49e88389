import { asDay, type Day } from '../../core/desk/door.ts';
import type { OpenWindow } from './harness.ts';

/** The day on which the sample lot is looked at once its building has begun. */
export const buildingDay: Day = asDay('2026-08-03');

/** Carries the sample lot on into building: a permit in hand, one inspection passed, one not, one booked. */
export async function begunBuilding({ host }: OpenWindow): Promise<void> {
  const { folder } = await host.sampleLot();
  const { desk } = host;
  const { lot } = await desk.ask('open-lot', { folder });
  const at = { lot, on: buildingDay };
  const card = {
    files: [],
    physicalOnly: true,
    kind: 'permit-card',
    number: 'BP-26-0412',
    issued: asDay('2026-05-18'),
  };
  // Fan flow and volume come to 3 air changes; the tester's own number has its digits turned round.
  const air = { fan_flow: '740 cfm', house_volume: '14,800 cu ft', air_changes: '0.3' };
  const report = { files: [], physicalOnly: true, kind: 'air-leakage-report', number: 'AL-77', facts: air };
  await desk.ask('keep', { papers: [card, report] }, at);
  await desk.ask('event', { event: 'construction-begun', day: asDay('2026-06-01') }, at);
  const footing = { errand: 'footing-inspect', state: 'settled', outcome: 'pass' } as const;
  await desk.ask('visit', { ...footing, day: asDay('2026-06-22') }, at);
  await desk.ask(
    'visit',
    {
      errand: 'slab-inspect',
      day: asDay('2026-07-13'),
      state: 'sent back',
      outcome: 'fail',
      comments: ['Vapour barrier torn at the bath: tape or replace it.', 'Two sleeves at the east wall are not set.'],
      due: asDay('2026-08-07'),
    },
    at,
  );
  await desk.ask('visit', { errand: 'temporary-power', day: asDay('2026-08-05'), state: 'planned' }, at);
}
