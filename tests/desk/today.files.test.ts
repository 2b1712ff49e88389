import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

/** With a deed in hand there is somewhere to go. */
async function keepDeed({ desk, pdf, lot }: SmallLot): Promise<void> {
  const files = [await pdf('deed.pdf', ['Deed'])];
  const facts = { parcel: '041-22-0070', owner: 'Tomás Lindqvist' };
  await desk.ask('keep', { papers: [{ files, kind: 'deed', issued: '2025-06-02', facts }] }, { lot });
}

it('the slip names what can be done today, where, with what to carry, and what it opens up', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
  expect((await desk.ask('today', {}, small)).beginWith).toContain('Deed');
  await keepDeed(small);
  const slip = await desk.ask('today', {}, small);
  const { today, stops } = await desk.ask('way', {}, small);
  expect(slip.can.map(({ errand }) => errand)).toEqual(today);
  expect(slip.can.length).toBeGreaterThan(0);
  for (const { errand, carry, office, why } of slip.can) {
    const { needs } = await desk.ask('errand', { errand }, small);
    expect(carry.map(({ need }) => need)).toEqual(needs.map(({ need }) => need));
    expect(office.title.length).toBeGreaterThan(3);
    const waiting = stops.filter((stop) => stop.earliest !== undefined && stop.waitsFor.includes(errand));
    const [first] = waiting;
    if (first !== undefined) expect(why).toContain(`"${first.title}"`);
  }
  const deed = slip.can.flatMap(({ carry }) => carry).find(({ kind }) => kind === 'deed');
  expect(deed).toMatchObject({ state: 'in hand', good: true });
});

it('what was sent back stands first, with the comments nobody answered', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await keepDeed(small);
  const [first] = (await desk.ask('today', {}, small)).can;
  const errand = first?.errand ?? '';
  await desk.ask('visit', { errand, state: 'left with them', day: '2026-04-01' }, small);
  expect((await desk.ask('today', {}, small)).waiting).toMatchObject([{ errand, since: '2026-04-01', days: 13 }]);
  const comments = ['Name the owner.', 'Date it.'];
  await desk.ask('visit', { errand, state: 'sent back', day: '2026-04-10', comments }, small);
  const sent = await desk.ask('today', {}, small);
  expect(sent.waiting).toEqual([]);
  expect(sent.back).toMatchObject([{ errand, since: '2026-04-10', comments: [{ number: '1' }, { number: '2' }] }]);
  expect(sent.can[0]).toMatchObject({ errand, state: 'sent back' });
  const comment = sent.back[0]?.comments[0]?.comment ?? '';
  await desk.ask('answer-comment', { comment, text: 'Named now.' }, small);
  const answered = await desk.ask('today', {}, small);
  expect(answered.back[0]?.comments.map(({ text }) => text)).toEqual(['Date it.']);
});

it('a paper that lapses before the errand that needs it is to be put right first, with the day', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
  const said = { kind: 'owner-id', goodThrough: '2026-05-01', physicalOnly: true } as const;
  await desk.ask('keep', { papers: [{ ...said, files: [] }] }, small);
  const { amiss } = await desk.ask('today', {}, small);
  const [row] = amiss.filter(({ kind }) => kind === 'owner-id');
  expect(row).toMatchObject({ sort: 'lapsing', by: '2026-05-01', title: 'Copy of photo id' });
  const earlier = await desk.ask('today', {}, { ...small, on: '2026-03-20' });
  expect([...earlier.soon, ...earlier.amiss].filter(({ kind }) => kind === 'owner-id')).toEqual([]);
});

it('tells the holds that are near, and the events no errand notes by itself', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('answer', { question: 'foundation', answer: 'slab' }, small);
  const { holds, events } = await desk.ask('today', {}, small);
  const all = (await desk.ask('way', {}, small)).holds.map(({ hold }) => hold);
  for (const { hold } of holds) expect(all).toContain(hold);
  expect(events.map(({ event }) => event)).not.toContain('loan-recorded');
  const poured = events.find(({ event }) => event === 'concrete-poured');
  expect(poured).toMatchObject({ shut: true });
  await desk.ask('event', { event: 'concrete-poured', day: '2026-04-13' }, small);
  const after = await desk.ask('today', {}, small);
  expect(after.events.map(({ event }) => event)).not.toContain('concrete-poured');
  expect(after.soon[0]).toMatchObject({ final: true });
});

it('tells that the day’s copy of the lot could not be made, and what to do', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  await desk.ask('close-lot', {}, small);
  rmSync(join(folder, 'copies'), { recursive: true, force: true });
  writeFileSync(join(folder, 'copies'), 'in the way');
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  const { troubles } = await desk.ask('today', {}, { lot });
  expect(troubles).toHaveLength(1);
  expect(`${troubles[0]?.message} ${troubles[0]?.next}`).toMatch(/copy/);
});
