import { expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import { openSmallLot } from './small-lot.ts';

it('who was turned away left nothing there: no clock of theirs runs, no fee was taken, and the words say so', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const word = { rule: 'errands.permit-apply.fee', value: '385 usd', who: 'Ms. Pruitt' };
  await desk.ask('clerk-said', word, small);
  const back = {
    errand: 'permit-apply',
    day: '2026-04-10',
    state: 'sent back',
  } as const;
  await desk.ask('visit', { ...back, outcome: 'turned away', comments: ['Bring the receipt'] }, small);
  const away = await desk.ask('with-offices', {}, small);
  const [office] = away.offices;
  expect(office?.back).toMatchObject([
    { errand: 'permit-apply', cameBack: 'turned away', comments: [{ number: '1' }] },
  ]);
  expect(office?.clocks).toEqual([]);
  expect(office?.waiting).toEqual([]);
  expect(printAnswer('with-offices', away)).not.toMatch(/180 days|sent back/);
  const { reading } = await desk.ask('errand', { errand: 'permit-apply' }, small);
  expect(reading).toMatchObject({ state: 'sent back', cameBack: 'turned away' });
  expect(printAnswer('today', await desk.ask('today', {}, small))).not.toMatch(/sent it back/);
  expect((await desk.ask('costs', {}, small)).fees).toMatchObject({ known: 38_500, settled: 0 });
  // They took it the next time, and sent it back: now it is an application of theirs.
  await desk.ask('visit', { ...back, day: '2026-04-12', comments: ['Show the porch'] }, small);
  const taken = (await desk.ask('with-offices', {}, small)).offices[0];
  expect(taken?.back[0]?.cameBack).toBe('sent back');
  expect(taken?.clocks[0]?.say).toContain('180 days');
  expect((await desk.ask('costs', {}, small)).fees).toMatchObject({ known: 38_500, settled: 38_500 });
  const wrong = desk.ask('visit', { errand: 'permit-apply', state: 'settled', outcome: 'turned away' }, small);
  await expect(wrong).rejects.toMatchObject({ code: 'wrong use' });
});

it('an inspection that failed is "not passed", and nobody sent it back', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const fail = { errand: 'footing-inspect', day: '2026-04-10', state: 'sent back', outcome: 'fail' } as const;
  await desk.ask('visit', { ...fail, comments: ['Trench too shallow'] }, small);
  const answer = await desk.ask('errand', { errand: 'footing-inspect' }, small);
  expect(answer.reading.cameBack).toBe('not passed');
  expect(printAnswer('errand', answer)).not.toMatch(/sent it back/i);
  const offices = printAnswer('with-offices', await desk.ask('with-offices', {}, small));
  expect(offices).toMatch(/not passed: Footing inspection/);
  expect(offices).not.toMatch(/sent back/);
});
