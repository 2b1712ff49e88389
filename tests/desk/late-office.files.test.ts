import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('an office that is late stays late: the day it was expected by does not move on with the calendar', async () => {
  await using small = await openSmallLot();
  const { desk, lot } = small;
  const { practice } = await desk.ask('practice', {}, { lot });
  const timed = Object.values(practice.errands).find(({ id }) => id === 'septic-apply');
  expect(timed?.takes).toBeDefined();
  await desk.ask('visit', { errand: 'septic-apply', state: 'left with them', day: '2026-04-01' }, small);
  const soon = await desk.ask('today', {}, { lot, on: '2026-04-02' });
  const later = await desk.ask('today', {}, { lot, on: '2026-09-30' });
  const [row] = soon.waiting;
  expect(row?.expected).toBeDefined();
  expect(later.waiting.map(({ errand, expected }) => [errand, expected])).toEqual([['septic-apply', row?.expected]]);
  expect((later.waiting[0]?.expected ?? '') < '2026-09-30').toBe(true);
});
