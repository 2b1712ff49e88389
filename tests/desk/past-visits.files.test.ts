import { expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

/** Turned away, put right, and taken: what is left to be read of the first going. */
async function turnedAwayOnce({ desk, lot }: SmallLot): Promise<void> {
  const at = { lot };
  const comments = ['They want a culvert deposit receipt', 'Both of you have to sign'];
  const visit = { errand: 'permit-apply', day: '2026-04-10', note: 'Turned away at the counter', comments } as const;
  await desk.ask('visit', { ...visit, state: 'sent back' }, at);
  const open = (await desk.ask('errand', { errand: 'permit-apply' }, at)).comments;
  for (const [n, { comment }] of open.entries()) {
    await desk.ask('answer-comment', { comment, text: n === 0 ? 'Receipt 5512 enclosed' : 'Signed' }, at);
  }
  await desk.ask('visit', { errand: 'permit-apply', day: '2026-04-14', state: 'left with them' }, at);
  const word = { rule: 'errands.permit-apply.fee', value: '385 usd', who: 'Ms. Pruitt', note: 'check only, no cards' };
  await desk.ask('clerk-said', word, at);
}

it('why one was turned away stands on the errand after it was answered and handed over again', async () => {
  await using small = await openSmallLot();
  await turnedAwayOnce(small);
  const answer = await small.desk.ask('errand', { errand: 'permit-apply' }, small);
  expect(answer.comments).toEqual([]);
  expect(answer.past).toMatchObject([
    { day: '2026-04-14', words: 'left with them', comments: [] },
    {
      day: '2026-04-10',
      words: 'sent back',
      note: 'Turned away at the counter',
      comments: [
        { number: '1', text: 'They want a culvert deposit receipt', answer: 'Receipt 5512 enclosed' },
        { number: '2', answer: 'Signed' },
      ],
    },
  ]);
  expect(answer.told).toMatchObject([{ who: 'Ms. Pruitt', said: 'check only, no cards' }]);
  const text = printAnswer('errand', answer);
  for (const words of [
    'Turned away at the counter',
    'culvert deposit',
    'Receipt 5512',
    'Ms. Pruitt said: check only',
  ]) {
    expect(text).toContain(words);
  }
});

it('what was done lists a visit with its note and the gist of the comments', async () => {
  await using small = await openSmallLot();
  await turnedAwayOnce(small);
  const { acts } = await small.desk.ask('history', {}, small);
  expect(acts.map(({ title }) => title)).toContainEqual(
    'Apply for the building permit: sent back (Turned away at the counter; 1. They want a culvert deposit receipt; ' +
      '2. Both of you have to sign)',
  );
});

it.each([
  ['culvert deposit', { sort: 'errand', errand: 'permit-apply', why: 'visit', when: 'sent back on 10 Apr 2026' }],
  ['turned away', { sort: 'errand', errand: 'permit-apply', why: 'visit', snippet: 'Turned away at the counter' }],
  ['5512', { sort: 'errand', errand: 'permit-apply', why: 'visit' }],
  ['pruitt', { sort: 'office', office: 'plan-review', why: 'word', when: '14 Apr 2026' }],
  ['no cards', { sort: 'office', office: 'plan-review', why: 'word' }],
] as const)('"%s" is found in a visit, its comments and answers, or an office’s word', async (text, row) => {
  await using small = await openSmallLot();
  await turnedAwayOnce(small);
  const answer = await small.desk.ask('find', { text }, small);
  expect(answer.found).toContainEqual(expect.objectContaining(row));
  for (const { snippet, marks } of answer.found) {
    for (const [start, end] of marks) expect(text).toContain(snippet.slice(start, end).toLowerCase().slice(0, 3));
  }
  expect(printAnswer('find', answer)).toContain(answer.found[0]?.snippet);
});
