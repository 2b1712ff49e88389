import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('a paper and the errand it goes to show its numbers reckoned again, and whether they agree', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  // energyconservatory.com: 1,000 cfm in 9,600 cubic feet are 6.25 air changes.
  const facts = { fan_flow: '1,000 cfm', house_volume: '9,600 cu ft', air_changes: '5.26' };
  const report = { files: [], physicalOnly: true, kind: 'air-leakage-report', number: 'AL-1', facts };
  await desk.ask('keep', { papers: [report] }, small);
  const { figures } = await desk.ask('pages', { edition: 'AL-1' }, small);
  expect(figures).toMatchObject([
    {
      figure: 'air_changes',
      words: '6.25 air changes per hour',
      printed: [{ words: '5.26', agrees: false }],
      parts: [{ words: '1,000 cfm' }, { words: '9,600 cu ft' }],
    },
  ]);
  expect(figures[0]?.source).toContain('Fan flow x 60');
  expect(figures[0]?.caution).toContain('official decide');
  await desk.ask('correct', { edition: 'AL-1', facts: { air_changes: '6.3' } }, small);
  const errand = await desk.ask('errand', { errand: 'occupancy-walk' }, small);
  expect(errand.figures).toMatchObject([{ figure: 'air_changes', printed: [{ words: '6.3', agrees: true }] }]);
});

it('the cost sheet shows what is left for the unforeseen, and a draw request what the schedule comes to', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('cost-line', { title: 'Framing', sort: 'work', estimate: '80,000' }, small);
  await desk.ask('cost-line', { title: 'Contingency', sort: 'contingency', estimate: '8,000' }, small);
  const draw = await desk.ask('draw', { work: { Framing: '20,000' }, retainage: 10, day: '2026-04-14' }, small);
  const { draws } = await desk.ask('costs', {}, small);
  const subject = draws.find((each) => each.draw === draw.row)?.subject ?? '';
  const paper = { files: [], physicalOnly: true };
  await desk.ask(
    'keep',
    {
      papers: [
        { ...paper, kind: 'cost-breakdown', number: 'CB-1' },
        { ...paper, kind: 'draw-request', subject, number: 'DR-1', facts: { amount: '18,500 usd' } },
      ],
    },
    small,
  );
  const sheet = (await desk.ask('pages', { edition: 'CB-1' }, small)).figures;
  expect(sheet.find(({ figure }) => figure === 'contingency')).toMatchObject({
    words: '$8,000 of $8,000, 10 % of the estimated work',
    limits: [{ within: false }],
  });
  const asked = (await desk.ask('pages', { edition: 'DR-1' }, small)).figures;
  // A tenth of 20,000 is held back.
  expect(asked).toMatchObject([{ words: '$18,000', printed: [{ words: '$18,500', agrees: false }] }]);
});
