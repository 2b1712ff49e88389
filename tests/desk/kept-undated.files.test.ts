import { expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import type { KeptPaper } from '../../core/desk/contract/answers.ts';
import { openSmallLot } from './small-lot.ts';

it('a paper kept without the date its clock runs from says so at once, and in the list, until the date is added', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('septic.pdf', ['Septic permit']);
  const answer = await desk.ask('keep', { papers: [{ files: [file], kind: 'septic-permit' }] }, small);
  const [kept] = answer.kept;
  expect(kept?.undated).toBe('the day it was issued is not known');
  expect(printAnswer('keep', answer)).toContain(`correct ${kept?.edition} --issued DAY`);
  const row = async () => (await desk.ask('papers', {}, small)).papers[0];
  expect(await row()).toMatchObject({ state: 'in hand', undated: 'the day it was issued is not known' });
  expect(printAnswer('papers', await desk.ask('papers', {}, small))).toMatch(/How long it is good is not known/);
  await desk.ask('correct', { edition: kept?.edition ?? '', issued: '2026-03-02' }, small);
  expect((await row())?.undated).toBeUndefined();
});

it('a last good day is offered to be noted only where papers of the kind bear one', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const papers = ['septic-permit', 'owner-id'].map((kind) => ({ files: [], kind, physicalOnly: true }));
  const answer = await desk.askUntyped('keep', { papers }, small);
  expect(answer.kept.map(({ undated }: KeptPaper) => undated !== undefined)).toEqual([true, true]);
  const lines = printAnswer('keep', answer)
    .split('\n')
    .filter((line) => line.includes('--issued DAY'));
  expect(lines.map((line) => line.includes('(or --good-through DAY)'))).toEqual([false, true]);
});

it('stands on the slip of today where an errand is near that asks for it', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('answer', { question: 'road', answer: 'county' }, small);
  const keep = async (kind: string, issued?: '2026-02-02') =>
    desk.ask('keep', { papers: [{ files: [await small.pdf(`${kind}.pdf`, [kind])], kind, issued }] }, small);
  await keep('deed', '2026-02-02');
  await keep('boundary-survey', '2026-02-02');
  await keep('driveway-permit');
  const { amiss } = await desk.ask('today', {}, small);
  expect(amiss).toContainEqual(
    expect.objectContaining({ sort: 'date unknown', weight: 'ask first', kind: 'driveway-permit' }),
  );
});

it('a paper without clocks, and one with its date, say nothing of the kind', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await small.pdf('a.pdf', ['Receipt']), await small.pdf('b.pdf', ['Septic permit'])] as const;
  const { kept } = await desk.ask(
    'keep',
    {
      papers: [
        { files: [files[0]], kind: 'other', title: 'School tax receipt' },
        { files: [files[1]], kind: 'septic-permit', issued: '2026-03-02' },
      ],
    },
    small,
  );
  expect(kept.map(({ undated }) => undated)).toEqual([undefined, undefined]);
});
