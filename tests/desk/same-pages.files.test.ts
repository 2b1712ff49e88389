import { appendFileSync, copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot, writePdf } from './small-lot.ts';

/** One document fetched twice: the second differs in bytes that nobody sees, so both have the very same sound pages. */
async function twice({ desk, root }: SmallLot, pages: readonly string[]) {
  const [first, second] = [join(root, 'first.pdf'), join(root, 'second.pdf')];
  await writePdf(first, pages);
  copyFileSync(first, second);
  appendFileSync(second, '\n% fetched again\n');
  return [desk.tickets.offer(first), desk.tickets.offer(second)] as const;
}

async function kept(small: SmallLot) {
  const [first, second] = await twice(small, ['Deed of Trust', 'its second page']);
  const { kept: papers } = await small.desk.ask(
    'keep',
    {
      papers: [
        { files: [first], kind: 'deed', number: 'D-1' },
        { files: [second], kind: 'other', title: 'Letter', number: 'L-2' },
      ],
    },
    small,
  );
  return papers.map(({ edition }) => edition);
}

const pagesOf = async ({ desk, lot }: SmallLot, edition: string) =>
  (await desk.ask('pages', { edition }, { lot })).pages.length;

it('two files with the very same pages: the second leaves the table when all its pages are kept', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const [first, second] = await twice(small, ['Deed', 'Letter']);
  await desk.ask('keep', { papers: [{ files: [first], kind: 'deed' }] }, small);
  await desk.ask('lay-down', { files: [second] }, small);
  const item = async () => (await desk.ask('table', {}, small)).items[0];
  const ticket = (await item())?.ticket ?? '';
  await desk.ask('keep', { papers: [{ files: [ticket], pages: ['2'], kind: 'other', title: 'Letter' }] }, small);
  expect(await item()).toMatchObject({ leftPages: '1', keptPages: [{ pages: '2', title: 'Letter' }] });
  await desk.ask('keep', { papers: [{ files: [ticket], pages: ['1'], kind: 'other', title: 'Deed again' }] }, small);
  expect(await item()).toBeUndefined();
});

it('removing the second for good takes its paper’s pages and leaves the first alone, and says that it has the same', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const [deed = '', letter = ''] = await kept(small);
  const done = await desk.ask('purge', { edition: letter, reason: 'private', sure: true }, small);
  expect(done.papers).toEqual(['Letter']);
  expect(done.notes).toContainEqual(expect.stringMatching(/very same pages came in as "first.pdf" too/));
  expect(await pagesOf(small, deed)).toBe(2);
  expect(await pagesOf(small, letter)).toBe(0);
  expect((await desk.ask('verify', {}, small)).problems).toEqual([]);
});

it('removing the first for good leaves the second its pages and what was said of it', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const [deed = '', letter = ''] = await kept(small);
  const done = await desk.ask('purge', { edition: deed, reason: 'private', sure: true }, small);
  expect(done.papers).toEqual(['Deed']);
  expect(await pagesOf(small, deed)).toBe(0);
  expect(await pagesOf(small, letter)).toBe(2);
  const { papers } = await desk.ask('papers', {}, small);
  expect(papers.map(({ title, editions }) => [title, editions[0]?.number])).toEqual([
    ['Deed', ''],
    ['Letter', 'L-2'],
  ]);
  expect((await desk.ask('verify', {}, small)).problems).toEqual([]);
  // Both gone, the pages are gone.
  await desk.ask('purge', { edition: letter, reason: 'private', sure: true }, small);
  expect(await pagesOf(small, letter)).toBe(0);
  expect((await desk.ask('find', { text: 'Deed of Trust' }, small)).found).toEqual([]);
});
