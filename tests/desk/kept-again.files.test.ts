import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

// Fixed bug: keeping the same file again dropped the firm, the dates and the facts that were said with it.
it('keeps one certificate for each of two firms, though it is one file', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('certificate.pdf', ['Certificate of liability insurance']);
  for (const firm of ['Quillfeather Framing', 'Dovesink Plumbing']) {
    await desk.ask('engage', { firm, trade: 'work' }, small);
    const { kept } = await desk.ask(
      'keep',
      { papers: [{ files: [file], kind: 'liability-certificate', subject: firm }] },
      small,
    );
    expect(kept, firm).toMatchObject([{ already: false }]);
  }
  expect((await desk.ask('papers', { kind: 'liability-certificate' }, small)).papers).toHaveLength(2);
});

it('writes what is said with a file that is kept already to the paper it is', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await small.pdf('deed.pdf', ['Deed'])];
  await desk.ask('keep', { papers: [{ files, kind: 'deed', marks: ['signed'] }] }, small);
  const said = {
    number: '2024-001873',
    issued: '2024-03-11',
    facts: { parcel: '041-22-0070' },
    marks: ['dated'],
  } as const;
  const again = await desk.ask('keep', { papers: [{ files, kind: 'deed', ...said, marks: [...said.marks] }] }, small);
  expect(again.kept).toMatchObject([{ already: true }]);
  const [deed] = (await desk.ask('papers', { kind: 'deed' }, small)).papers;
  expect(deed?.editions).toMatchObject([{ number: '2024-001873', issued: '11 Mar 2024', marks: ['signed', 'dated'] }]);
  expect((await desk.ask('find', { text: '041-22-0070' }, small)).found).toHaveLength(1);
});

it('keeps a page by itself although it is part of a longer paper, and one paper twice in a call once', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const [a, b] = [await small.pdf('a.pdf', ['Front']), await small.pdf('b.pdf', ['Back'])];
  await desk.ask('keep', { papers: [{ files: [a, b], kind: 'other', title: 'Both sides' }] }, small);
  const alone = await desk.ask('keep', { papers: [{ files: [a], kind: 'other', title: 'Front alone' }] }, small);
  expect(alone.kept).toMatchObject([{ already: false, title: 'Front alone' }]);
  const twice = { files: [b], kind: 'other', title: 'Back' };
  const both = await desk.ask('keep', { papers: [twice, { ...twice }] }, small);
  expect(both.kept.map(({ already }) => already)).toEqual([false, true]);
});

it('refuses dates that can’t both be true before any file is worked on', async () => {
  await using small = await openSmallLot();
  const files = [await small.pdf('permit.pdf', ['Septic permit'])];
  const paper = { files, kind: 'septic-permit', issued: '2026-03-01', goodThrough: '2025-03-01' } as const;
  const { refused } = await small.desk.ask('keep', { papers: [{ ...paper, files }] }, small);
  expect(refused).toMatchObject([{ error: { code: 'wrong use' } }]);
  expect((await small.desk.ask('verify', {}, small)).files).toBe(0);
});
