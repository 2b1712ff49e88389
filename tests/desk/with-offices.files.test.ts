import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

async function keepPlans({ desk, pdf, lot }: SmallLot, revision: string, replaces?: string): Promise<void> {
  const files = [await pdf(`plans ${revision}.pdf`, [`Plans ${revision}`])];
  const links = replaces === undefined ? [] : [{ word: 'replaces' as const, to: replaces }];
  const paper = { files, kind: 'plans', number: `P-${revision}`, revision, links };
  await desk.ask('keep', { papers: [paper] }, { lot });
}

it('says who holds which copies, and that an edition they hold was replaced since', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  expect(await desk.ask('with-offices', {}, small)).toEqual({ changed: [], offices: [], others: [] });
  await keepPlans(small, 'A');
  await desk.ask('keep', { papers: [{ files: [], kind: 'deed', physicalOnly: true }] }, small);
  const { packet, files } = await desk.ask('assemble', { errand: 'permit-apply' }, small);
  const surrendered = ['deed', 'a thumb drive'];
  await desk.ask('hand-over', { packet, to: 'R. Amsel', how: 'at the counter', receipt: 'R-7', surrendered }, small);
  const before = await desk.ask('with-offices', {}, small);
  const [office] = before.offices;
  expect(office?.office).toMatchObject({ id: 'plan-review' });
  expect(office?.handed).toMatchObject([{ to: 'R. Amsel', receipt: 'R-7', how: 'at the counter', packet }]);
  const out = files.filter(({ sort }) => sort !== 'errand sheet');
  expect(office?.handed[0]?.files.map(({ sha256 }) => sha256)).toEqual(out.map(({ sha256 }) => sha256.slice(0, 12)));
  const held = office?.handed[0]?.editions ?? [];
  expect(held.find(({ title }) => title === 'Deed')).toMatchObject({ surrendered: true, old: false });
  expect(held.find(({ number }) => number === 'P-A')).toMatchObject({ surrendered: false, old: false, copies: 2 });
  await keepPlans(small, 'B', 'P-A');
  const after = (await desk.ask('with-offices', {}, small)).offices[0]?.handed[0]?.editions;
  expect(after?.find(({ number }) => number === 'P-A')).toMatchObject({ old: true });
  const told = await desk.ask('with-offices', {}, small);
  expect(told.changed).toMatchObject([
    {
      title: 'House plans',
      now: 'revision B',
      holders: [{ to: 'R. Amsel', holds: 'revision A', copies: 2 }],
      makers: [],
    },
  ]);
  expect(told.offices[0]?.unseen).toMatchObject([
    { title: 'House plans', number: 'revision B', holds: 'revision A', errand: 'permit-apply' },
  ]);
  // A paper made from the old one has a maker to tell; whoever got the new one has been told.
  const trusses = { files: [], physicalOnly: true, kind: 'truss-sheets', number: 'T-1' };
  await desk.ask('keep', { papers: [{ ...trusses, links: [{ word: 'made from', to: 'P-A' }] }] }, small);
  const again = await desk.ask('assemble', { papers: ['P-B'], recipient: 'R. Amsel', title: 'The new plans' }, small);
  await desk.ask('hand-over', { packet: again.packet, to: 'R. Amsel', how: 'at the counter' }, small);
  const [changed] = (await desk.ask('with-offices', {}, small)).changed;
  expect(changed).toMatchObject({
    holders: [],
    makers: [{ number: 'T-1', office: 'Truss maker', from: 'revision A' }],
  });
  const { holders } = await desk.ask('pages', { edition: 'P-A' }, small);
  expect(holders).toMatchObject([{ to: 'R. Amsel', copies: 2 }]);
  const { handovers } = await desk.ask('handovers', {}, small);
  for (const { handover } of handovers) await desk.ask('withdraw', { handover, reason: 'It was shut.' }, small);
  expect((await desk.ask('with-offices', {}, small)).offices).toEqual([]);
});

it('says that a revision not approved yet makes nobody’s copy old, and whom to tell once it is', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await keepPlans(small, 'C');
  const stand = (edition: string) =>
    desk.ask('standing', { edition, office: 'plan-review', word: 'approved', day: '2026-04-10' }, small);
  await stand('P-C');
  const { packet } = await desk.ask('assemble', { papers: ['P-C'], recipient: 'The framer', title: 'Plans' }, small);
  await desk.ask('hand-over', { packet, to: 'The framer', how: 'printed' }, small);
  const trusses = { files: [], physicalOnly: true, kind: 'truss-sheets', number: 'T-1' };
  await desk.ask('keep', { papers: [{ ...trusses, links: [{ word: 'made from', to: 'P-C' }] }] }, small);
  await keepPlans(small, 'D', 'P-C');
  const held = async () => (await desk.ask('with-offices', {}, small)).others[0]?.editions[0]?.old;
  const [before] = (await desk.ask('with-offices', {}, small)).changed;
  expect(before).toMatchObject({
    now: 'revision C',
    holders: [],
    makers: [],
    pending: {
      next: 'revision D',
      tell: [{ to: 'The framer', holds: 'revision C' }],
      makers: [{ number: 'T-1', from: 'revision C' }],
    },
  });
  expect(await held()).toBe(false);
  expect((await desk.ask('pages', { edition: 'P-C' }, small)).current).toBe(true);
  await stand('P-D');
  const [after] = (await desk.ask('with-offices', {}, small)).changed;
  expect(after).toMatchObject({ now: 'revision D', holders: [{ to: 'The framer', holds: 'revision C' }] });
  expect(after?.pending).toBeUndefined();
  expect(await held()).toBe(true);
});

it('says what lies there, what they sent back with which comments, and till when to answer', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const visit = { errand: 'septic-apply', day: '2026-04-01' } as const;
  await desk.ask('visit', { ...visit, state: 'left with them' }, small);
  const left = (await desk.ask('with-offices', {}, small)).offices;
  expect(left).toMatchObject([
    {
      office: { id: 'environmental-health' },
      waiting: [{ errand: 'septic-apply', since: '2026-04-01', days: 13 }],
      awaited: [{ kind: 'septic-permit', errand: 'septic-apply', since: '2026-04-01' }],
      back: [],
      clocks: [],
    },
  ]);
  const comments = ['Where is the well?', 'Sign it.'];
  await desk.ask('visit', { errand: 'septic-apply', day: '2026-04-10', state: 'sent back', comments }, small);
  const [sent] = (await desk.ask('with-offices', {}, small)).offices;
  expect(sent).toMatchObject({ waiting: [], awaited: [], clocks: [{ through: '2026-10-07', days: 176 }] });
  expect(sent?.clocks[0]?.say).toContain('common practice');
  for (const { comment } of sent?.back[0]?.comments ?? []) {
    await desk.ask('answer-comment', { comment, text: 'Done.', day: '2026-04-12' }, small);
  }
  const [answered] = (await desk.ask('with-offices', {}, small)).offices;
  expect(answered?.clocks).toEqual([]);
  expect(answered?.back[0]?.comments).toMatchObject([
    { number: '1', answer: 'Done.', answered: '2026-04-12' },
    { number: '2', answer: 'Done.' },
  ]);
  const wrong = desk.ask('answer-comment', { comment: '77', text: 'x' }, small);
  await expect(wrong).rejects.toMatchObject({ code: 'not found' });
});

it('a handover holds only what went out: the private errand sheet never, nor where an earlier version noted it', async () => {
  await using small = await openSmallLot();
  const { desk, lot, folder } = small;
  await keepPlans(small, 'A');
  const { packet, files } = await desk.ask('assemble', { errand: 'permit-apply' }, { lot });
  const own = files.filter(({ sort }) => sort === 'errand sheet');
  expect(own).toHaveLength(1);
  await desk.ask('hand-over', { packet, to: 'R. Amsel', how: 'at the counter' }, { lot });
  await desk.ask('close-lot', {}, { lot });
  const db = new Database(join(folder, 'lot.sqlite'));
  const names = db.prepare<[], string>('SELECT name FROM handover_file').pluck();
  expect(names.all().filter((name) => name.includes('PRIVATE'))).toEqual([]);
  expect(names.all()).toHaveLength(files.length - 1);
  // As versions before noted it.
  db.prepare('INSERT INTO handover_file (handover, name, sha256, bytes) SELECT id, ?, ?, ? FROM handover').run(
    own[0]?.name,
    own[0]?.sha256,
    own[0]?.bytes,
  );
  db.close();
  const again = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) }, {});
  const handed = (await desk.ask('with-offices', {}, again)).offices.flatMap((row) => row.handed);
  expect(handed.map((row) => row.files.length)).toEqual([files.length - 1]);
  expect(JSON.stringify(handed)).not.toContain('PRIVATE');
  const { handovers } = await desk.ask('handovers', {}, again);
  expect(handovers[0]?.sha256).toHaveLength(files.length - 1);
});
