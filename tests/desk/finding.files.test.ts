import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('finds papers, errands, offices and pages in one line, and says where the words stand', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await small.pdf('letter.pdf', ['About the septic tank'])];
  await desk.ask('keep', { papers: [{ files, kind: 'deed', number: 'B-212' }] }, small);
  await desk.ask('keep', { papers: [{ files: [], kind: 'septic-permit', physicalOnly: true }] }, small);
  const { found } = await desk.ask('find', { text: 'Sept' }, small);
  expect(found[0]).toMatchObject({ sort: 'paper', kind: 'septic-permit', why: 'title', marks: [[0, 6]] });
  expect(found.find(({ errand }) => errand === 'septic-apply')).toMatchObject({ sort: 'errand', why: 'title' });
  const page = found.at(-1);
  expect(page).toMatchObject({ sort: 'paper', kind: 'deed', why: 'page', page: 1 });
  for (const { snippet, marks } of found) {
    const words = marks.map(([start, end]) => snippet.slice(start, end).toLowerCase());
    expect(
      words.every((word) => word.startsWith('sept')),
      snippet,
    ).toBe(true);
    expect(words.length).toBeGreaterThan(0);
  }
  const offices = (await desk.ask('find', { text: 'health' }, small)).found;
  expect(offices).toContainEqual(expect.objectContaining({ sort: 'office', office: 'environmental-health' }));
  expect((await desk.ask('find', { text: 'b-212' }, small)).found[0]).toMatchObject({ why: 'number', kind: 'deed' });
  expect((await desk.ask('find', { text: 'septic', limit: 2 }, small)).found).toHaveLength(2);
  expect((await desk.ask('find', { text: '"!?' }, small)).found).toEqual([]);
});

it('an office that doesn’t exist here is not found', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const offices = async () =>
    (await desk.ask('find', { text: 'zoning' }, small)).found.filter(
      ({ why, sort }) => sort === 'office' && why === 'title',
    );
  expect((await offices()).length).toBeGreaterThan(0);
  await desk.ask('clerk-said', { rule: 'offices.zoning.exists', value: false, who: 'R. Amsel' }, small);
  expect(await offices()).toEqual([]);
});
