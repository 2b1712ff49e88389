import { expect, it } from 'vitest';
import { asDay } from '../../core/vocabulary/days.ts';
import { openSmallLot } from './small-lot.ts';

// Fixed bug: common practice names the kind "other" itself, and so none of these was ever told.
it('each paper of a title of the owner’s own is told before it lapses, by that title', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  for (const [title, goodThrough] of [
    ['Toilet hire', '2026-04-20'],
    ['Power letter', '2026-05-01'],
  ] as const) {
    const file = await small.pdf(`${title}.pdf`, [title]);
    await desk.ask('keep', { papers: [{ files: [file], title, goodThrough: asDay(goodThrough) }] }, small);
  }
  const { rows } = await desk.ask('lapses', { within: 60 }, { ...small, on: asDay('2026-04-14') });
  expect(rows.map(({ title, through }) => [title, through])).toEqual([
    ['Toilet hire', '2026-04-20'],
    ['Power letter', '2026-05-01'],
  ]);
  const { soon } = await desk.ask('today', {}, { ...small, on: asDay('2026-04-14') });
  expect(soon.map(({ title }) => title)).toEqual(['Toilet hire', 'Power letter']);
});

// Fixed bug: of an errand that is settled the packet said that nothing speaks against it, its papers missing.
it('a packet for an errand that is settled is held against the whole of its rules', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('visit', { errand: 'loan-close', state: 'settled', day: asDay('2026-04-10') }, small);
  const on = { ...small, on: asDay('2026-04-14') };
  const told = await desk.ask('errand', { errand: 'loan-close' }, on);
  expect([told.reading.state, told.reading.findings]).toEqual(['settled', []]);
  const { draft, findings } = await desk.ask('plan', { errand: 'loan-close' }, on);
  expect(draft).toBe(true);
  expect(findings.filter(({ sort }) => sort === 'missing').length).toBeGreaterThan(2);
});
