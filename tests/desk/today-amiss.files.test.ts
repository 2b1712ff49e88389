import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('papers that speak against each other stand on the slip before any trip, until one is put right', async () => {
  await using small = await openSmallLot();
  const { desk, pdf, lot } = small;
  await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
  const keep = async (kind: string, bedrooms: string): Promise<string> => {
    const files = [await pdf(`${kind}.pdf`, [kind])];
    const { kept } = await desk.ask(
      'keep',
      { papers: [{ files, kind, issued: '2026-02-02', facts: { bedrooms } }] },
      { lot },
    );
    return kept[0]?.edition ?? '';
  };
  await keep('septic-permit', '3');
  const plans = await keep('plans', '4');
  const { amiss, can } = await desk.ask('today', {}, small);
  expect(amiss.map(({ agreement, weight }) => [agreement, weight])).toContainEqual(['bedrooms', 'questioned']);
  // What is made from the disputed plans stands behind what isn't, and says what to settle first.
  const disputed = can.map(({ settleFirst }) => settleFirst.length > 0);
  expect(disputed).toContain(true);
  expect(disputed).toEqual(disputed.toSorted());
  const onPlans = can.filter(({ carry }) => carry.some(({ title }) => title === 'House plans'));
  expect(onPlans.map(({ settleFirst }) => settleFirst)).toEqual(
    onPlans.map(() => amiss.filter(({ agreement }) => agreement === 'bedrooms').map(({ say }) => say)),
  );
  await desk.ask('correct', { edition: plans, facts: { bedrooms: '3' } }, small);
  const after = await desk.ask('today', {}, small);
  expect(after.amiss.filter(({ agreement }) => agreement === 'bedrooms')).toEqual([]);
  expect(after.can.flatMap(({ settleFirst }) => settleFirst)).toEqual([]);
});
