import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

// A fee told at the permit desk made Ms. Pruitt the source of "No engagement is noted for this lot".
it('whoever told a fee is named for the fee alone, and the note of the old fee goes with it', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const read = () => desk.ask('errand', { errand: 'permit-apply' }, small);
  const before = await read();
  expect(before.errand.feeNote).toBe('by floor area or cost; ask the permit desk');
  const note = '385 for anything under 2000 square feet, check only';
  await desk.ask('clerk-said', { rule: 'errands.permit-apply.fee', value: '$385', who: 'Ms. Pruitt', note }, small);
  const { errand, reading } = await read();
  expect([errand.fee, errand.feeNote]).toEqual([38_500, undefined]);
  expect(reading.findings.map(({ say, basis }) => [say, basis])).toEqual(
    before.reading.findings.map(({ say, basis }) => [say, basis]),
  );
  expect(JSON.stringify(reading)).not.toContain('Pruitt');
  const { rows } = await desk.ask('amendable', { errand: 'permit-apply' }, small);
  const told = rows.filter(({ basis }) => basis.startsWith('Ms. Pruitt'));
  expect(told.map(({ say }) => say)).toEqual(['The fee is $385.']);
  // Taken back, the note is there again.
  const { words } = await desk.ask('practice-words', {}, small);
  await desk.ask('unsay', { word: words[0]?.word ?? '' }, small);
  expect((await read()).errand).toEqual(before.errand);
});
