import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('keeping answers with its own act, though another window acted while a later file was worked on', async () => {
  await using small = await openSmallLot();
  const { desk, pdf, lot, root } = small;
  const good = await pdf('deed.pdf', ['Deed']);
  const bad = join(root, 'bad.pdf');
  writeFileSync(bad, 'no paper at all');
  const papers = [
    { files: [good], kind: 'deed' },
    { files: [desk.tickets.offer(bad)], title: 'Damaged' },
  ];
  let other: Promise<unknown> | undefined;
  const stop = desk.on('progress', ({ done }) => {
    if (done === 1) other ??= desk.ask('identity', { sort: 'owner', text: 'Other Window' }, { lot });
  });
  const { act } = await desk.ask('keep', { papers }, { lot });
  stop();
  await other;
  const { acts } = await desk.ask('history', {}, { lot });
  expect(acts.find((each) => each.act === act)?.title).toMatch(/^Kept /);
});

it('a keep that is stopped says how many papers were kept before, and they stand in the lot', async () => {
  await using small = await openSmallLot();
  const { desk, pdf, lot } = small;
  const stop = new AbortController();
  const papers = await Promise.all(
    ['one', 'two', 'three'].map(async (name) => ({ files: [await pdf(`${name}.pdf`, [name])], title: name })),
  );
  desk.on('progress', ({ done }) => {
    if (done === 2) stop.abort();
  });
  await expect(desk.ask('keep', { papers }, { lot, signal: stop.signal })).rejects.toMatchObject({
    code: 'stopped',
    message: 'Stopped; 2 of 3 papers were kept before that.',
  });
  const { papers: rows } = await desk.ask('papers', {}, { lot });
  expect(rows.map(({ title }) => title).toSorted()).toEqual(['one', 'two']);
});
