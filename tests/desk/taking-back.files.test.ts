import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('a paper said not to apply can be said to apply again', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await expect(desk.ask('applies-again', { paper: 'deed' }, small)).rejects.toMatchObject({ code: 'not found' });
  await desk.ask('not-applicable', { paper: 'deed', why: 'The lot is leased.' }, small);
  const state = async () => (await desk.ask('papers', { kind: 'deed' }, small)).papers.map((paper) => paper.state);
  expect(await state()).toEqual(["doesn't apply"]);
  await desk.ask('applies-again', { paper: 'deed' }, small);
  expect(await state()).toEqual(['not asked for']);
  await expect(desk.ask('applies-again', { paper: 'deed' }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('firms, names and events can be ended and taken back, the lot renamed', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('engage', { firm: 'Quillfeather Framing', trade: 'framing', from: '2026-03-01' }, small);
  const early = desk.ask('end-firm', { firm: 'Quillfeather Framing', day: '2026-02-01' }, small);
  await expect(early).rejects.toMatchObject({ code: 'wrong use' });
  await desk.ask('end-firm', { firm: 'Quillfeather Framing', day: '2026-04-01' }, small);
  await desk.ask('identity', { sort: 'place', text: 'Lot 7, Heron Lane' }, small);
  await desk.ask('end-identity', { sort: 'place', text: 'Lot 7, Heron Lane', day: '2026-02-02' }, small);
  await desk.ask('event', { event: 'construction-begun', day: '2026-03-02' }, small);
  await desk.ask('remove-event', { event: 'construction-begun', day: '2026-03-02' }, small);
  await desk.ask('rename-lot', { title: '418 Heron Lane' }, small);
  const card = await desk.ask('read-lot', {}, small);
  expect(card).toMatchObject({
    title: '418 Heron Lane',
    subjects: [{ to: '2026-04-01' }],
    identities: [{ to: '2026-02-02' }],
    events: [],
  });
  const again = desk.ask('remove-event', { event: 'construction-begun', day: '2026-03-02' }, small);
  await expect(again).rejects.toMatchObject({ code: 'not found' });
  const nobody = desk.ask('end-identity', { sort: 'owner', text: 'Nobody', day: '2026-02-02' }, small);
  await expect(nobody).rejects.toMatchObject({ code: 'not found' });
});

it('an office’s word can be taken back though another was said later, which stays', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const plans = 'errands.permit-apply.needs.plans.copies';
  await desk.ask('clerk-said', { rule: plans, value: 3, who: 'R. Amsel', day: '2026-04-02' }, small);
  await desk.ask('clerk-said', { rule: 'errands.permit-apply.fee', value: '90 usd', who: 'B. Kettle' }, small);
  // The same words from another person on the same day are a word of their own.
  await desk.ask('clerk-said', { rule: plans, value: 3, who: 'C. Haldane', day: '2026-04-02' }, small);
  const { words, layers } = await desk.ask('practice-words', {}, small);
  expect(words.map(({ who, office }) => [who, office])).toEqual([
    ['C. Haldane', 'plan-review'],
    ['B. Kettle', 'plan-review'],
    ['R. Amsel', 'plan-review'],
  ]);
  expect(layers.filter(({ sort }) => sort === 'word')).toHaveLength(3);
  for (const who of ['R. Amsel', 'C. Haldane']) {
    const word = words.find((each) => each.who === who)?.word ?? '';
    await desk.ask('unsay', { word }, small);
  }
  const { errand, needs } = await desk.ask('errand', { errand: 'permit-apply' }, small);
  expect(needs.find(({ need }) => need === 'plans')).toMatchObject({ copies: 2, basis: { on: 'common practice' } });
  expect(errand.fee).toBe(9000);
  const left = await desk.ask('practice-words', {}, small);
  expect(left.words.map(({ who }) => who)).toEqual(['B. Kettle']);
  const act = left.words[0]?.act;
  const history = (await desk.ask('history', {}, small)).acts;
  expect(history.find((row) => row.act === act)?.title).toContain('B. Kettle said');
  await expect(desk.ask('unsay', { word: '999' }, small)).rejects.toMatchObject({ code: 'not found' });
  await desk.ask('undo', {}, small);
  expect((await desk.ask('practice-words', {}, small)).words).toHaveLength(2);
});

it('of two equal words each is taken back alone, and a new one never takes the name of one that stands', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const rule = 'errands.permit-apply.needs.plans.copies';
  const say = () => desk.ask('clerk-said', { rule, value: 3, who: 'R. Amsel', day: '2026-04-02' }, small);
  const words = async () => (await desk.ask('practice-words', {}, small)).words;
  for (let n = 0; n < 3; n += 1) await say();
  await desk.ask('unsay', { word: (await words())[1]?.word ?? '' }, small);
  await say();
  const names = (await words()).map(({ layer }) => layer);
  expect(new Set(names).size).toBe(3);
  for (let left = 2; left >= 0; left -= 1) {
    await desk.ask('unsay', { word: (await words())[0]?.word ?? '' }, small);
    const { layers } = await desk.ask('practice-words', {}, small);
    expect(layers.filter(({ sort }) => sort === 'word')).toHaveLength(left);
    const { needs } = await desk.ask('errand', { errand: 'permit-apply' }, small);
    expect(needs.find(({ need }) => need === 'plans')?.copies).toBe(left > 0 ? 3 : 2);
  }
});

it('the history says what can’t be undone and why, and which act another took back', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('rename-lot', { title: 'Other' }, small);
  await desk.ask('undo', {}, small);
  const { acts } = await desk.ask('history', {}, small);
  expect(acts[0]).toMatchObject({ undoes: acts[1]?.act, undone: false });
  expect(acts[1]).toMatchObject({ undone: true, lasting: undefined });
  expect(acts.at(-1)).toMatchObject({ title: 'Lot begun', lasting: 'This is where the lot began.' });
});

it('a firm noted wrong is corrected, and one noted by mistake removed; one with papers stays', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const subjects = async () => (await desk.ask('read-lot', {}, small)).subjects;
  await desk.ask('engage', { firm: 'Quilfeather', trade: 'roofing', from: '2026-03-01', to: '2026-05-01' }, small);
  const before = desk.ask('correct-firm', { firm: 'Quilfeather', to: '2026-02-01' }, small);
  await expect(before).rejects.toMatchObject({ code: 'wrong use' });
  const said = { name: 'Quillfeather Framing', trade: 'framing', from: '2026-03-09' as const, clear: ['to' as const] };
  await desk.ask('correct-firm', { firm: 'Quilfeather', ...said }, small);
  expect(await subjects()).toMatchObject([
    { title: 'Quillfeather Framing, framing', firm: 'Quillfeather Framing', trade: 'framing', from: '2026-03-09' },
  ]);
  expect((await subjects())[0]?.to).toBeUndefined();
  await desk.ask('visit', { errand: 'permit-apply', subject: 'Quillfeather Framing', state: 'planned' }, small);
  const used = desk.ask('remove-firm', { firm: 'Quillfeather Framing' }, small);
  await expect(used).rejects.toMatchObject({ code: 'wrong use' });
  await desk.ask('undo', {}, small);
  await desk.ask('remove-firm', { firm: 'Quillfeather Framing' }, small);
  expect(await subjects()).toEqual([]);
  await desk.ask('undo', {}, small);
  expect(await subjects()).toHaveLength(1);
});
