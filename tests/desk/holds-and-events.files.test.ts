import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

// Fixed bug: holds were worked out and shown nowhere before the deed.
it('shows on the way what may not be done yet, and says so when it was done all the same', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('answer', { question: 'foundation', answer: 'slab' }, small);
  const { holds } = await desk.ask('way', {}, small);
  const pour = holds.find(({ title }) => title === 'Before you pour the footings');
  expect(pour?.waitsFor).toContain('Footing inspection');
  const noted = await desk.ask('event', { event: 'concrete-poured', day: '2026-04-13' }, small);
  expect(noted.wouldBeRefused).toBe(true);
  expect(noted.findings).toMatchObject([{ final: true }]);
});

// Fixed bug: a cancelled closing left "mortgage recorded" on the record card.
it('notes what a visit causes only when it settled, and once', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const recorded = async (): Promise<number> =>
    (await desk.ask('read-lot', {}, small)).events.filter(({ event }) => event === 'loan-recorded').length;
  await desk.ask('visit', { errand: 'loan-close', state: 'settled', outcome: 'cancelled', day: '2026-03-01' }, small);
  expect(await recorded()).toBe(0);
  for (const day of ['2026-03-10', '2026-03-12'] as const) {
    await desk.ask('visit', { errand: 'loan-close', state: 'settled', outcome: 'pass', day }, small);
  }
  expect(await recorded()).toBe(1);
});

it('takes no event that has not happened yet, and no day to move in that is past', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await expect(desk.ask('event', { event: 'moved-in', day: '2031-01-01' }, small)).rejects.toMatchObject({
    code: 'wrong use',
  });
  await expect(desk.ask('target', { day: '1999-01-01' }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

// Fixed bug: purge told success where there was no file, and never said which packets went with it.
it('purges only where there is a file and the person is sure, and names what went with it', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await small.pdf('id.pdf', ['Owner id 998-55-0100'])];
  await desk.ask(
    'keep',
    {
      papers: [
        { files, kind: 'owner-id' },
        { files: [], kind: 'deed', physicalOnly: true },
      ],
    },
    small,
  );
  await desk.ask('assemble', { papers: ['owner-id'], title: 'For the bank' }, small);
  await expect(desk.ask('purge', { edition: 'deed', reason: 'x' }, small)).rejects.toMatchObject({ code: 'not found' });
  await expect(desk.ask('purge', { edition: 'owner-id', reason: 'x' }, small)).rejects.toMatchObject({
    code: 'wrong use',
  });
  const gone = await desk.ask('purge', { edition: 'owner-id', reason: 'lost in the post', sure: true }, small);
  expect(gone.packets).toHaveLength(1);
  expect((await desk.ask('find', { text: '998-55-0100' }, small)).found).toEqual([]);
});

// Fixed bug: names that every object carries ("constructor") were taken for ids.
it('knows no errand, paper, fact or event called constructor', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await small.pdf('deed.pdf', ['Deed'])];
  const asks: [Parameters<typeof desk.askUntyped>[0], unknown][] = [
    ['errand', { errand: 'constructor' }],
    ['visit', { errand: 'constructor', state: 'planned' }],
    ['not-applicable', { paper: 'constructor', why: 'x' }],
    ['event', { event: 'constructor', day: '2026-01-01' }],
    ['answer', { question: 'constructor', answer: 'x' }],
  ];
  for (const [name, argument] of asks) {
    await expect(desk.askUntyped(name, argument, small), name).rejects.toMatchObject({
      code: expect.stringMatching(/wrong use|not found/),
    });
  }
  const { refused } = await desk.ask('keep', { papers: [{ files, kind: 'deed', facts: { constructor: '1' } }] }, small);
  expect(refused).toMatchObject([{ error: { code: 'wrong use' } }]);
});
