import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

async function keep(small: SmallLot, name: string, paper: object) {
  const files = [await small.pdf(name, [name])];
  const { kept } = await small.desk.ask('keep', { papers: [{ files, ...paper }] }, small);
  const [one] = kept;
  if (one === undefined) throw new Error('Nothing was kept.');
  return one;
}

async function rows(small: SmallLot) {
  const { papers } = await small.desk.ask('papers', {}, small);
  return papers.map(({ kind, title, editions }) => [kind, title, editions.length]);
}

// "Give it one with kind, if one fits" was said, and there was no such way.
it('a paper kept under a wrong kind is given the right one, with the facts that kind knows', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const facts = { bedrooms: '3', revision: 'B', floor_area: '1,850 sq ft' };
  const { edition } = await keep(small, 'plans.pdf', { kind: 'plans', facts, marks: ['scale drawn'] });
  const { notes } = await desk.ask('correct', { edition, kind: 'Energy report', number: 'E-7' }, small);
  const pages = await desk.ask('pages', { edition }, small);
  expect(pages).toMatchObject({ kind: 'energy-report', title: 'Energy report', number: 'E-7', marks: ['scale drawn'] });
  const said = pages.facts.filter(({ words }) => words !== '').map(({ fact }) => fact);
  expect(said.toSorted()).toEqual(['bedrooms', 'floor_area', 'revision']);
  expect(notes).toEqual([]);
  expect(await rows(small)).toEqual([['energy-report', 'Energy report', 1]]);
  const lost = await desk.ask('correct', { edition, kind: 'deed' }, small);
  expect(lost.notes[0]).toMatch(
    /^Not carried over, for Deed knows no such thing: .*Bedrooms.*Taken back, it is there again\.$/,
  );
  await desk.ask('undo', {}, small);
  const again = await desk.ask('pages', { edition }, small);
  expect(again).toEqual(expect.objectContaining({ kind: 'energy-report', facts: pages.facts, number: 'E-7' }));
  await desk.ask('undo', {}, small);
  expect(await rows(small)).toEqual([['plans', 'House plans', 1]]);
});

it('a paper kept without a kind gets one, or another title; a kind’s own title stays', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const { edition, notes } = await keep(small, 'culvert.pdf', {});
  expect(notes.join(' ')).toContain('If one fits after all, correct it');
  await desk.ask('correct', { edition, title: 'Culvert receipt' }, small);
  expect(await rows(small)).toEqual([['other', 'Culvert receipt', 1]]);
  await desk.ask('correct', { edition, kind: 'driveway-permit' }, small);
  expect(await rows(small)).toEqual([['driveway-permit', 'Driveway permit', 1]]);
  expect((await desk.ask('find', { text: 'driveway permit' }, small)).found.length).toBeGreaterThan(0);
  const title = desk.ask('correct', { edition, title: 'Culvert' }, small);
  await expect(title).rejects.toMatchObject({
    code: 'wrong use',
    message: '"Driveway permit" is called after its kind.',
  });
  await expect(desk.ask('correct', { edition, kind: 'no-such' }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('one that replaces another of its paper stays; one that stands alone joins what was kept before', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const first = await keep(small, 'a.pdf', { kind: 'deed', issued: '2026-01-05' });
  const links = [{ word: 'replaces', to: first.edition }];
  const second = await keep(small, 'b.pdf', { kind: 'deed', issued: '2026-02-05', links });
  for (const { edition } of [first, second]) {
    const tied = desk.ask('correct', { edition, kind: 'boundary-survey' }, small);
    await expect(tied).rejects.toMatchObject({ code: 'wrong use', next: expect.stringContaining('undo the act') });
  }
  const third = await keep(small, 'c.pdf', { kind: 'boundary-survey', issued: '2026-03-05' });
  const { notes } = await desk.ask('correct', { edition: third.edition, kind: 'deed' }, small);
  expect(notes).toEqual([expect.stringContaining('another edition of it now')]);
  expect(await rows(small)).toEqual([['deed', 'Deed', 3]]);
});

// Fixed bug: a draw request of a firm, a firm's deed and a licence of nobody were written, which keep refuses.
it('whose it is must fit the kind: refused where it is none of the sort, none is asked for, or none is said', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('engage', { firm: 'Alder Ash', trade: 'framing' }, small);
  const { edition } = await keep(small, 'letter.pdf', { title: 'Letter' });
  const wrong = [
    [{ kind: 'draw-request', subject: 'Alder Ash' }, '"Draw request" is kept for one draw at a time, and '],
    [{ kind: 'deed', subject: 'Alder Ash' }, '"Deed" is kept for the whole lot, not for one firm.'],
    [{ kind: 'contractor-licence' }, '" is kept for one firm at a time.'],
  ] as const;
  for (const [said, message] of wrong) {
    const asked = desk.ask('correct', { edition, ...said }, small);
    await expect(asked).rejects.toMatchObject({ code: 'wrong use', message: expect.stringContaining(message) });
  }
  expect(await rows(small)).toEqual([['other', 'Letter', 1]]);
  await desk.ask('correct', { edition, kind: 'contractor-licence', subject: 'Alder Ash' }, small);
  const subjectTitle = expect.stringContaining('Alder Ash');
  expect(await desk.ask('pages', { edition }, small)).toMatchObject({ kind: 'contractor-licence', subjectTitle });
});

// Fixed bug: the paper went out of every list without a word.
it('says so where the new kind doesn’t apply here or was put aside', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const { edition } = await keep(small, 'letter.pdf', { title: 'Letter' });
  await desk.ask('answer', { question: 'water', answer: 'public' }, small);
  const none = await desk.ask('correct', { edition, kind: 'well-permit' }, small);
  expect(none.notes).toEqual([expect.stringMatching(/^Well permit doesn’t apply here, as your questions/)]);
  await desk.ask('not-applicable', { paper: 'deed', why: 'It is leased.' }, small);
  const aside = await desk.ask('correct', { edition, kind: 'deed' }, small);
  expect(aside.notes).toEqual([
    'You put Deed aside (It is leased.): it isn’t counted until you say that it applies after all.',
  ]);
});

// Fixed bug: the corrected paper came back as a second "Deed" beside the one kept meanwhile.
it('a correction is not undone into a second paper of the kind: what made it is named, and both ways out work', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const first = await keep(small, 'a.pdf', { kind: 'deed' });
  const { act } = await desk.ask('correct', { edition: first.edition, kind: 'boundary-survey' }, small);
  await keep(small, 'b.pdf', { kind: 'deed' });
  const before = await rows(small);
  const early = desk.ask('undo', { act }, small);
  await expect(early).rejects.toMatchObject({
    code: 'conflict',
    message:
      '"Corrected Deed: it is Boundary survey" can\'t be undone: there is another "Deed" by now, since "Kept Deed".',
    next: expect.stringMatching(
      /^Take back "Kept Deed" first; nothing was changed now\. Or correct its kind once more/,
    ),
  });
  expect(await rows(small)).toEqual(before);
  await desk.ask('undo', {}, small);
  await desk.ask('undo', { act }, small);
  expect(await rows(small)).toEqual([['deed', 'Deed', 1]]);
  await desk.ask('correct', { edition: first.edition, kind: 'boundary-survey' }, small);
  await keep(small, 'c.pdf', { kind: 'deed' });
  await desk.ask('correct', { edition: first.edition, kind: 'deed' }, small);
  expect(await rows(small)).toEqual([['deed', 'Deed', 2]]);
});
