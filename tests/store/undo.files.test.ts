import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import type { Lot } from '../../core/store/index.ts';
import { edition, keepPermit, newLot, practice, told } from './lot-in-folder.ts';

/** All tracked rows as they stand, straight from the file. */
function rowsOf(lot: Lot): Record<string, readonly unknown[]> {
  const db = new Database(join(lot.folder, 'lot.sqlite'), { readonly: true });
  const derived = /^(act|change|lease|sqlite_.*|.*_words.*|file|rendition|page.*|practice|plan|migration)$/;
  const tables = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
    .pluck()
    .all();
  const rows = tables
    .filter((name) => !derived.test(name))
    .map((name) => [name, db.prepare(`SELECT * FROM ${name}`).all()]);
  db.close();
  return Object.fromEntries(rows);
}

/** A dozen acts that touch every tracked table but the packets and handovers. */
async function liveALittle(lot: Lot): Promise<void> {
  lot.setTitle('418 Heron Lane');
  lot.setTarget('2026-11-01');
  lot.answer('bedrooms', { sort: 'count', value: 4 });
  lot.answer('bedrooms', { sort: 'count', value: 3 });
  lot.answer('floor_area', { sort: 'area', value: 1840.1 + 0.2 });
  lot.noteEvent({ event: 'land-cleared', day: '2026-04-02' });
  lot.noteEvent({ event: 'land-cleared', day: '2026-04-02', note: 'by hand' });
  lot.addIdentity({ sort: 'owner', text: 'Hạnh Nguyễn Lindqvist' });
  lot.endIdentity({ sort: 'owner', text: 'Hạnh Nguyễn Lindqvist' }, '2026-12-31');
  lot.confirmSame({ sort: 'place', a: '418 HERON LN', b: '418 Heron Lane' });
  const firm = lot.addSubject({ sort: 'engagement', title: 'Septic work', from: '2026-05-01' });
  lot.endSubject(firm, '2026-06-01');
  lot.setPractice({ practice: { ...practice, title: 'Practice by word' }, layers: [], title: 'Three sets of plans' });
  const layer = { name: 'by word', text: 'errands: {}\n' };
  lot.addOfficeWord({ office: 'plan-review', who: 'R. Amsel', day: '2026-04-02', said: 'three sets', layer });
  const first = await keepPermit(lot);
  const second = lot.keepEdition(
    edition(first.files, { links: [{ word: 'replaces', to: first.edition }], subject: firm }),
  );
  lot.setFacts(first.edition, [{ fact: 'bedrooms', value: { sort: 'count', value: 2 } }]);
  lot.setMarks(first.edition, ['signed', 'notarised']);
  lot.setCopies(first.edition, [{ place: 'blue binder', count: 2 }]);
  lot.linkEditions(second.edition, [{ word: 'made from', to: first.edition }]);
  lot.correctEdition(first.edition, { issued: null, number: 'SP-118', readable: false });
  lot.recordStanding(first.edition, { office: 'environmental-health', word: 'approved', day: '2026-04-10' });
  lot.setPaperTitle(first.paper, 'Onsite permit');
  lot.setNotApplicable({ kind: 'water-test', title: 'Water test' }, 'city water');
  const visit = lot.recordVisit({ errand: 'septic-apply', day: '2026-04-12', state: 'planned' });
  lot.recordVisit({ id: visit, errand: 'septic-apply', day: '2026-04-13', state: 'sent back' });
  const comment = lot.addComment({ visit, number: '1', text: 'Draw the tank.' });
  lot.answerComment(comment, { text: 'Drawn.', day: '2026-04-14' });
  lot.addRecord({
    sort: 'receipt',
    day: '2026-04-13',
    title: 'Permit fee',
    amount: 24_000,
    file: first.files.original,
  });
}

test('undoing everything, act by act, leads back to the start; redoing everything, to the end', async () => {
  const lot = newLot();
  const start = rowsOf(lot);
  await liveALittle(lot);
  const end = rowsOf(lot);
  const view = lot.view();
  const count = lot.acts(100).length - 1;
  expect(count).toBe(29);
  const undone: number[] = [];
  for (let i = 0; i < count; i += 1) undone.push(lot.undo().act);
  expect(rowsOf(lot)).toEqual(start);
  expect(() => lot.undo()).toThrow(expect.objectContaining(told('conflict', /where the lot began/)));
  for (const act of undone.toReversed()) lot.undo(act);
  expect(rowsOf(lot)).toEqual(end);
  expect(lot.view()).toEqual(view);
  expect(lot.acts(100).filter((act) => act.undoes === undefined && act.undone)).toEqual([]);
});

test('undoing a keep takes its rows and search words away and leaves the files', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  expect(lot.search('SP-2026').map((hit) => hit.why)).toEqual(['number']);
  expect(lot.undo().title).toBe('Kept "Septic permit"');
  expect(lot.view().papers).toEqual([]);
  expect(lot.search('SP-2026')).toEqual([]);
  expect(lot.search('sewage')).toEqual([]);
  expect(existsSync(lot.originalPath(files.original))).toBe(true);
  expect(existsSync(lot.renditionPath(files.rendition))).toBe(true);
  lot.undo(lot.acts()[0]?.id);
  expect(lot.search('SP-2026')).toHaveLength(1);
  expect(lot.search('sewage')).toHaveLength(1);
});

test('what was changed again later is a conflict with a sentence, and nothing changes', async () => {
  const lot = newLot();
  lot.answer('bedrooms', { sort: 'count', value: 3 });
  const [first] = lot.acts();
  lot.answer('bedrooms', { sort: 'count', value: 4 });
  const before = rowsOf(lot);
  const acts = lot.acts();
  expect(() => lot.undo(first?.id)).toThrow(
    expect.objectContaining(told('conflict', /"Answered "bedrooms"" can't be undone/)),
  );
  expect(rowsOf(lot)).toEqual(before);
  expect(lot.acts()).toEqual(acts);
});

test('an act of several changes is undone as a whole or not at all', async () => {
  const lot = newLot();
  lot.act('Two answers', () => {
    lot.answer('bedrooms', { sort: 'count', value: 3 });
    lot.answer('sewage', { sort: 'choice', value: 'septic' });
  });
  const [both] = lot.acts();
  lot.answer('bedrooms', { sort: 'count', value: 4 });
  expect(() => lot.undo(both?.id)).toThrow(expect.objectContaining({ code: 'conflict' }));
  expect(lot.view().answers).toHaveProperty('sewage');
  lot.undo();
  lot.undo();
  expect(lot.view().answers).toEqual({});
});

test('a keep on which a later paper rests is not undone', async () => {
  const lot = newLot();
  const plans = await keepPermit(lot);
  const [keep] = lot.acts();
  const trusses = lot.keepEdition({ ...edition(plans.files), kind: 'truss-sheets', title: 'Trusses' });
  lot.linkEditions(trusses.edition, [{ word: 'made from', to: plans.edition }]);
  const view = lot.view();
  const [link] = lot.acts();
  expect(() => lot.undo(keep?.id)).toThrow(
    expect.objectContaining({
      message: `"${keep?.title}" can't be undone: "${link?.title}" rests on it.`,
    }),
  );
  expect(lot.view()).toEqual(view);
  lot.undo(link?.id);
  lot.undo(keep?.id);
  expect(lot.view().papers.map(({ title }) => title)).toEqual(['Trusses']);
});

test('what stands in the way of taking back is named, and where it was handed over, what to do instead', async () => {
  const lot = newLot();
  const permit = await keepPermit(lot);
  const [keep] = lot.acts();
  lot.answer('bedrooms', { sort: 'count', value: 3 });
  const [answered] = lot.acts();
  lot.answer('bedrooms', { sort: 'count', value: 4 });
  expect(() => lot.undo(answered?.id)).toThrow(
    expect.objectContaining(told('conflict', /changed again later by "Answered "bedrooms""/)),
  );
  const given = { recipient: 'Plan review', how: 'at the counter', day: '2026-04-14' } as const;
  lot.handOver({ ...given, editions: [{ edition: permit.edition, copies: 1, surrendered: false }] });
  expect(() => lot.undo(keep?.id)).toThrow(
    expect.objectContaining({
      message: `"${keep?.title}" can't be undone: "Handed over to Plan review" rests on it.`,
      next: expect.stringMatching(/withdraw the handover \(With the offices\)/),
    }),
  );
});

test('a handover is not undone but withdrawn with a reason', async () => {
  const lot = newLot();
  const permit = await keepPermit(lot);
  const given = { recipient: 'Plan review', how: 'at the counter', day: '2026-04-14' } as const;
  const id = lot.handOver({ ...given, editions: [{ edition: permit.edition, copies: 2, surrendered: true }] });
  expect(() => lot.undo()).toThrow(expect.objectContaining(told('conflict', /withdraw it and say why/)));
  expect(() => lot.withdrawHandover(id, { day: '2026-04-15', reason: ' ' })).toThrow(
    expect.objectContaining({ code: 'wrong use' }),
  );
  lot.withdrawHandover(id, { day: '2026-04-15', reason: 'given to the wrong desk' });
  expect(lot.handovers({ edition: permit.edition })).toMatchObject([
    { id, ...given, withdrawn: { day: '2026-04-15', reason: 'given to the wrong desk' } },
  ]);
  expect(() => lot.withdrawHandover(id, { day: '2026-04-15', reason: 'again' })).toThrow(
    expect.objectContaining({ code: 'conflict' }),
  );
});

test('an act that fails in the middle changes nothing and leaves no trace in the history', async () => {
  const lot = newLot();
  const fails = () =>
    lot.act('Half done', () => {
      lot.answer('sewage', { sort: 'choice', value: 'septic' });
      throw new Error('in the middle');
    });
  expect(fails).toThrow('in the middle');
  expect(lot.view().answers).toEqual({});
  expect(lot.acts()).toHaveLength(1);
  lot.answer('sewage', { sort: 'choice', value: 'sewer' });
  expect(lot.acts()).toHaveLength(2);
});

test('asynchronous work in an act is refused, since it would run on after the act', () => {
  const lot = newLot();
  const fails = () => lot.act('Later', async () => lot.setTitle('too late'));
  expect(fails).toThrow(expect.objectContaining({ code: 'internal' }));
  expect(lot.view().title).toBe('Heron Lane');
});

test('an act that changes nothing leaves no line in the history', () => {
  const lot = newLot();
  lot.answer('sewage', { sort: 'choice', value: 'septic' });
  lot.answer('sewage', { sort: 'choice', value: 'septic' });
  lot.confirmSame({ sort: 'place', a: 'b', b: 'a' });
  lot.confirmSame({ sort: 'place', a: 'a', b: 'b' });
  expect(lot.acts().map((act) => act.title)).toEqual([
    '"b" and "a" are the same place',
    'Answered "sewage"',
    'Lot begun',
  ]);
});

test('the same act is not undone twice', () => {
  const lot = newLot();
  lot.setTitle('Other');
  const [act] = lot.acts();
  lot.undo(act?.id);
  expect(() => lot.undo(act?.id)).toThrow(expect.objectContaining(told('conflict', /undone before/)));
  expect(() => lot.undo(9999)).toThrow(expect.objectContaining({ code: 'not found' }));
});
