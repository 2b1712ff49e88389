import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { MergeDone } from '../../core/store/bundle/merge-bundle.ts';
import { type Lot, openLot, restoreBundle } from '../../core/store/index.ts';
import { filledRecipe } from '../../core/vocabulary/forms.ts';
import { begin, day, holder, keepText, type LotInFolder } from './bundle-kit.ts';
import { sha256 } from './lot-in-folder.ts';

/** Two laptops with copies of one lot. */
let root: string;
let made: LotInFolder;
let mine: Lot;
let theirs: Lot;
let count = 0;

beforeEach(async () => {
  root = mkdtempSync(join(tmpdir(), 'lotfile-merge-'));
  made = await begin(join(root, 'mine'));
  mine = made.lot;
  await restoreBundle({ path: await bundled(mine), name: 'b' }, join(root, 'theirs'), {});
  theirs = openLot(join(root, 'theirs'), { holder });
});
afterEach(() => {
  mine.close();
  theirs.close();
  rmSync(root, { recursive: true, force: true });
});

async function bundled(lot: Lot): Promise<string> {
  count += 1;
  const path = join(root, `bundle-${count}.zip`);
  await lot.writeBundle(path, { day, work: {} });
  return path;
}

async function take(
  into: Lot,
  from: Lot,
  said: { choices?: Record<string, 'mine' | 'theirs'>; all?: 'mine' | 'theirs'; look?: boolean } = {},
): Promise<MergeDone> {
  const given = { look: false, choices: {}, ...said, name: 'their.zip', work: {} };
  return into.mergeBundle(await bundled(from), given);
}

const numbers = (lot: Lot) =>
  lot
    .view()
    .papers.flatMap(({ editions }) => editions.map(({ number }) => number))
    .toSorted();

describe('two laptops', () => {
  it('with nothing new say so, and nothing is changed', async () => {
    const acts = mine.acts(100);
    expect(await take(mine, theirs)).toMatchObject({ done: false, taken: [], conflicts: [] });
    expect(mine.acts(100)).toEqual(acts);
  });

  it('take over papers with their files, words, visits, comments and records, as one act', async () => {
    await keepText(theirs, { kind: 'septic-permit', title: 'Septic permit', text: 'renewed permit', number: 'S-2' });
    const visit = theirs.recordVisit({ errand: 'footing-inspect', day, state: 'sent back', outcome: 'fail' });
    const comment = theirs.addComment({ visit, number: '1', text: 'Rebar.', due: '2026-05-01' });
    theirs.answerComment(comment, { text: 'Done.', day });
    theirs.addRecord({ sort: 'note', day, title: 'Well head' });
    // What was made here meanwhile takes the same places in the tables.
    mine.recordVisit({ errand: 'well-apply', day, state: 'left with them' });
    mine.addRecord({ sort: 'note', day, title: 'Gate' });
    const done = await take(mine, theirs);
    expect(done).toMatchObject({ done: true, conflicts: [] });
    expect(done.taken).toEqual(
      expect.arrayContaining(['1 edition of a paper', '1 visit', '1 comment of an office', '1 record']),
    );
    expect(numbers(mine)).toEqual(['D-1', 'S-1', 'S-2']);
    expect(
      mine
        .view()
        .visits.map(({ errand }) => errand)
        .toSorted(),
    ).toEqual(['footing-inspect', 'permit-apply', 'well-apply']);
    expect(mine.comments(visit)).toMatchObject([{ text: 'Rebar.', answer: 'Done.', due: '2026-05-01' }]);
    expect(mine.search('renewed').map(({ title }) => title)).toEqual(['Septic permit']);
    expect((await mine.verify()).problems).toEqual([]);
    expect(await take(mine, theirs)).toMatchObject({ done: false, taken: [] });
    expect(await take(theirs, mine)).toMatchObject({ done: true, conflicts: [] });
    expect(theirs.view().visits).toHaveLength(3);
    mine.undo();
    expect(numbers(mine)).toEqual(['D-1', 'S-1']);
    expect(mine.view().visits.map(({ errand }) => errand)).toEqual(['permit-apply', 'well-apply']);
  });

  it('a row changed on one side alone is taken from there, whichever side asks', async () => {
    theirs.correctEdition(made.deed, { number: 'D-1 corrected' });
    theirs.removeEvent({ event: 'begun', day });
    expect(await take(theirs, mine)).toMatchObject({ done: false });
    expect(await take(mine, theirs)).toMatchObject({ done: true, conflicts: [] });
    expect(numbers(mine)).toEqual(['D-1 corrected', 'S-1']);
    expect(mine.view().events).toEqual([]);
  });

  it('a row changed on both sides waits for a choice, side by side; until then nothing comes over', async () => {
    mine.correctEdition(made.deed, { number: 'D-mine', issuer: 'Recorder' });
    theirs.correctEdition(made.deed, { number: 'D-theirs' });
    theirs.addRecord({ sort: 'note', day, title: 'Well head' });
    const asked = await take(mine, theirs);
    expect(asked.done).toBe(false);
    expect(asked.conflicts).toEqual([
      {
        key: `edition:${made.deed}`,
        what: 'Edition of a paper: Deed D-mine',
        mine: 'number: D-mine; issuer: Recorder',
        theirs: 'number: D-theirs; issuer: nothing',
        chosen: undefined,
      },
    ]);
    expect(mine.records()).toHaveLength(1);
    const [{ key } = { key: '' }] = asked.conflicts;
    expect(await take(mine, theirs, { choices: { [key]: 'mine' } })).toMatchObject({ done: true });
    expect(numbers(mine)).toEqual(['D-mine', 'S-1']);
    expect(mine.records()).toHaveLength(2);
    expect(await take(mine, theirs, { choices: { [key]: 'theirs' } })).toMatchObject({ done: true });
    expect(numbers(mine)).toEqual(['D-theirs', 'S-1']);
    mine.undo();
    expect(numbers(mine)).toEqual(['D-mine', 'S-1']);
    await expect(take(mine, theirs, { choices: { 'paper:none': 'mine' } })).rejects.toMatchObject({
      code: 'wrong use',
    });
  });

  it('what was taken over and taken back can be taken over anew; what was taken away by hand stays away', async () => {
    theirs.addRecord({ sort: 'note', day, title: 'Well head' });
    theirs.correctEdition(made.deed, { number: 'D-9' });
    await take(mine, theirs);
    mine.undo();
    expect(numbers(mine)).toEqual(['D-1', 'S-1']);
    expect(await take(mine, theirs)).toMatchObject({ done: true, conflicts: [] });
    expect(numbers(mine)).toEqual(['D-9', 'S-1']);
    expect(mine.records().map(({ title }) => title)).toEqual(['Pump', 'Well head']);
    mine.addRecord({ sort: 'note', day, title: 'Gate' });
    await take(theirs, mine);
    mine.undo();
    expect(await take(mine, theirs)).toMatchObject({ done: false });
    expect(mine.records().map(({ title }) => title)).toEqual(['Pump', 'Well head']);
  });

  it('one taken away here and changed there waits too; one taken away here and left alone there stays away', async () => {
    mine.removeEvent({ event: 'begun', day });
    theirs.noteEvent({ event: 'begun', day, note: 'by the neighbour' });
    theirs.answer('sewage', { sort: 'choice', value: 'septic' });
    const asked = await take(mine, theirs);
    expect(asked.conflicts).toMatchObject([
      { what: 'Event: begun, 2026-04-14', mine: 'taken away', theirs: expect.stringContaining('by the neighbour') },
    ]);
    expect(await take(mine, theirs, { all: 'mine' })).toMatchObject({ done: true });
    expect(mine.view().events).toEqual([]);
    expect(mine.view().answers).toHaveProperty('sewage');
  });

  it('each begin a paper of the same kind: it is one paper, with both editions', async () => {
    mine.undo();
    const here = mine.view().papers.length;
    mine.keepEdition({
      kind: 'well',
      title: 'Well permit',
      parts: [],
      originals: [],
      received: day,
      physicalOnly: true,
      number: 'W-1',
    });
    theirs.keepEdition({
      kind: 'well',
      title: 'Well permit',
      parts: [],
      originals: [],
      received: day,
      physicalOnly: true,
      number: 'W-2',
    });
    await take(mine, theirs, { all: 'mine' });
    const wells = mine.view().papers.filter(({ kind }) => kind === 'well');
    expect(mine.view().papers).toHaveLength(here + 1);
    expect(wells.flatMap(({ editions }) => editions.map(({ number }) => number))).toEqual(['W-1', 'W-2']);
    expect(await take(mine, theirs, { all: 'mine' })).toMatchObject({ done: false });
  });

  it('take over of pages that an earlier version purged nothing of what a form was filled with', async () => {
    await keepText(theirs, { kind: 'form', title: 'Application', text: 'filled form' });
    await theirs.purge([sha256('filled form')], { reason: 'private' });
    const database = new Database(join(theirs.folder, 'lot.sqlite'));
    const filled = filledRecipe('r', { form: 'application', values: { owner: 'Private Name' } });
    database.prepare('UPDATE rendition SET recipe = ? WHERE sha = ?').run(filled, sha256('pages of filled form'));
    database.close();
    expect(await take(mine, theirs)).toMatchObject({ done: true });
    const kept = new Database(join(mine.folder, 'lot.sqlite'), { readonly: true });
    const row = kept.prepare('SELECT purged, recipe FROM rendition WHERE sha = ?').get(sha256('pages of filled form'));
    kept.close();
    expect(row).toEqual({ purged: 1, recipe: 'r' });
    expect(readFileSync(join(mine.folder, 'lot.sqlite')).includes('Private Name')).toBe(false);
  });

  it('what was removed for good here is never brought back by the other', async () => {
    theirs.setFacts(made.deed, [{ fact: 'parcel', value: { sort: 'parcel number', value: '041-22' } }]);
    await mine.purge([sha256('the deed itself')], { reason: 'carries a bank account' });
    const done = await take(mine, theirs, { all: 'theirs' });
    expect(done.notes.join(' ')).toMatch(/removed here for good; it stays gone/);
    expect(mine.facts(made.deed)).toEqual([]);
    expect(mine.search('itself')).toEqual([]);
    expect(existsSync(theirs.originalPath(sha256('the deed itself')))).toBe(true);
    expect(() => mine.originalPath(sha256('the deed itself'))).toThrow(/for good/);
    const back = await take(theirs, mine, { all: 'mine' });
    expect(back.notes.join(' ')).toMatch(/Purge it here too/);
  });

  it('only look: what would come over is told, and nothing is changed', async () => {
    theirs.setTitle('Heron Lane 418');
    const before = mine.acts(100);
    expect(await take(mine, theirs, { look: true })).toMatchObject({ done: false, taken: ['the lot itself'] });
    expect(mine.acts(100)).toEqual(before);
    expect(mine.view().title).toBe('Heron Lane');
  });

  it('a bundle of another lot is refused with the way out', async () => {
    const third = await begin(join(root, 'third'));
    await expect(take(mine, third.lot)).rejects.toMatchObject({
      code: 'wrong use',
      next: expect.stringContaining('restore'),
    });
    third.lot.close();
  });

  it('a file changed on their disk is not taken for what it was, and nothing comes over', async () => {
    await keepText(theirs, { kind: 'deed', title: 'Deed', text: 'second deed', number: 'D-2' });
    writeFileSync(theirs.originalPath(sha256('second deed')), 'second d33d');
    await expect(take(mine, theirs)).rejects.toMatchObject({ code: 'file refused' });
    expect(numbers(mine)).toEqual(['D-1', 'S-1']);
    expect((await mine.verify()).problems).toEqual([]);
  });
});
