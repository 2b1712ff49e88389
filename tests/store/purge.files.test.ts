import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { watchDisk } from '../../core/store/disk.ts';
import type { Lot } from '../../core/store/index.ts';
import { filledRecipe } from '../../core/vocabulary/forms.ts';
import { edition, keepFile, keepPermit, newLot, page, sha256, told } from './lot-in-folder.ts';

const secret = 'Zyxwvut998877';

/** Files of the lot folder whose bytes hold the word, whichever way they are kept. */
function filesThatHold(lot: Lot, word: string): readonly string[] {
  return readdirSync(lot.folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(lot.folder, name)).isFile())
    .filter((name) =>
      readFileSync(join(lot.folder, name)).toString('latin1').toLowerCase().includes(word.toLowerCase()),
    );
}

async function keepSecret(lot: Lot): Promise<{ edition: string; original: string }> {
  const files = await keepFile(lot, `${'licence'}.pdf`, [page(0, `Owner ${secret}`), page(1, `again ${secret}`)]);
  writeFileSync(lot.renditionPath(files.rendition), `sound pages, ${secret}`);
  const value = { sort: 'text', value: `secret ${secret}` } as const;
  const kept = lot.keepEdition(
    edition(files, { kind: 'owner-id', title: 'Owner id', number: secret, facts: [{ fact: 'licence', value }] }),
  );
  lot.setFacts(kept.edition, [{ fact: 'licence', value: { sort: 'text', value: `changed ${secret}` } }]);
  return { edition: kept.edition, original: files.original };
}

test('what is removed for good is in no file of the lot any more: bytes, pages, words, facts, history, copies', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const kept = await keepSecret(lot);
  writeFileSync(join(lot.folder, 'lot.before-0002-next.sqlite'), secret);
  expect(filesThatHold(lot, secret).length).toBe(3);
  expect(lot.search(secret).length).toBeGreaterThan(0);
  expect(await lot.purge([kept.original], { reason: 'the county never asked for it' })).toEqual({
    act: expect.any(Number),
    names: ['licence.pdf'],
    papers: ['Owner id'],
    packets: [],
    left: [],
  });
  expect(filesThatHold(lot, secret)).toEqual([]);
  expect(lot.search(secret)).toEqual([]);
  expect(lot.view().papers[1]?.editions).toMatchObject([
    { id: kept.edition, pages: 0, readable: false, facts: {}, sheets: [] },
  ]);
  expect((await lot.verify()).problems).toEqual([]);
});

test('what a form was filled with goes with its pages', async () => {
  const lot = newLot();
  const files = await keepFile(lot, 'form.pdf', [page(0, 'Application')], false, {
    recipe: filledRecipe('pdf/2: rewritten', { form: 'application', values: { owner: secret } }),
  });
  const kept = lot.keepEdition(edition(files, { kind: 'deed', title: 'Form' }));
  expect(lot.view().papers[0]?.editions[0]?.filled).toEqual({ form: 'application', values: { owner: secret } });
  await lot.purge([files.original], { reason: 'private' });
  expect(filesThatHold(lot, secret)).toEqual([]);
  expect(lot.view().papers[0]?.editions.find(({ id }) => id === kept.edition)).not.toHaveProperty('filled');
});

test('a marker with the reason stays, the file is told as removed, and its acts can not be undone', async () => {
  const lot = newLot();
  const kept = await keepSecret(lot);
  await lot.purge([kept.original], { reason: 'private' });
  expect(() => lot.originalPath(kept.original)).toThrow(
    expect.objectContaining(told('not found', /"licence.pdf" was removed from this lot for good/)),
  );
  expect(lot.acts().map((act) => [act.title, act.lasting !== undefined])).toEqual([
    ['Removed "licence.pdf" for good', true],
    ['Facts of "Owner id"', true],
    ['Kept "Owner id"', true],
    ['Lot begun', true],
  ]);
  expect(() => lot.undo()).toThrow(expect.objectContaining({ code: 'conflict' }));
  expect(filesThatHold(lot, 'private')).toEqual(['lot.sqlite']);
});

test('other papers, their words and files are left as they were', async () => {
  const lot = newLot();
  const permit = await keepPermit(lot);
  const kept = await keepSecret(lot);
  const before = lot.view().papers[0];
  await lot.purge([kept.original], { reason: 'private' });
  expect(lot.view().papers[0]).toEqual(before);
  expect(lot.search('sewage')).toHaveLength(1);
  expect(existsSync(lot.originalPath(permit.files.original))).toBe(true);
});

test('a file removed for good can be added again, and is whole then', async () => {
  const lot = newLot();
  const kept = await keepSecret(lot);
  await lot.purge([kept.original], { reason: 'by mistake' });
  const files = await keepFile(lot, 'licence.pdf', [page(0, 'Owner'), page(1, 'again')]);
  expect(files.original).toBe(kept.original);
  expect(lot.view().papers[0]?.editions[0]).toMatchObject({ pages: 2, readable: true });
  expect(lot.search('owner').map((hit) => hit.why)).toEqual(['title', 'page']);
  expect((await lot.verify()).problems).toEqual([]);
});

test('without a reason nothing is removed', async () => {
  const lot = newLot();
  const kept = await keepSecret(lot);
  await expect(lot.purge([kept.original], { reason: '  ' })).rejects.toMatchObject({ code: 'wrong use' });
  expect(existsSync(lot.originalPath(kept.original))).toBe(true);
});

test('what the disk does not let go is told, keeps nothing else back, and goes by the same call once more', async () => {
  const lot = newLot();
  const kept = await keepSecret(lot);
  const stuck = lot.originalPath(kept.original);
  watchDisk((deed, path) => {
    if (deed === 'remove' && path === stuck) throw Object.assign(new Error('EBUSY: busy'), { code: 'EPERM' });
  });
  onTestFinished(() => watchDisk(undefined));
  const first = await lot.purge([kept.original], { reason: 'private' });
  expect(first.left).toEqual([
    expect.stringMatching(/^Removing "licence.pdf" from the disk did not work.*tried again at every opening\.$/),
  ]);
  expect(filesThatHold(lot, secret)).toEqual([]);
  expect(existsSync(stuck)).toBe(true);
  watchDisk(undefined);
  expect(await lot.purge([kept.original], { reason: 'private' })).toMatchObject({ act: undefined, left: [] });
  expect(existsSync(stuck)).toBe(false);
});

test('a removing for good that was broken off is finished at the next opening', async () => {
  const lot = newLot();
  const kept = await keepSecret(lot);
  const original = lot.originalPath(kept.original);
  watchDisk((deed) => {
    if (deed === 'remove') throw new Error('the program died here');
  });
  onTestFinished(() => watchDisk(undefined));
  await lot.purge([kept.original], { reason: 'private' });
  expect(existsSync(original)).toBe(true);
  watchDisk(undefined);
  lot.sweep();
  expect(existsSync(original)).toBe(false);
  expect((await lot.verify()).problems).toEqual([]);
});

test('no packet is kept whose file was removed for good while it was made', async () => {
  const lot = newLot();
  const kept = await keepPermit(lot);
  await lot.purge([kept.files.original], { reason: 'private' });
  const path = lot.temporaryPath();
  writeFileSync(path, 'the packet');
  const files = [{ path, name: 'packet.pdf', sha256: 'a'.repeat(64), bytes: 10 }];
  const sheet = { of: 'paper', page: { rendition: kept.files.rendition } };
  const plan = JSON.parse(
    JSON.stringify({
      code: 'X',
      title: 'Packet',
      day: '2026-04-14',
      recipient: 'x',
      tabs: [],
      files: [{ of: 'assembled', sheets: [sheet] }],
    }),
  );
  await expect(lot.keepPacket({ plan, practiceSha: lot.practiceSha(), files })).rejects.toMatchObject({
    code: 'packet refused',
    message: '"septic scan.pdf" was removed for good while "Packet" was being made.',
  });
  expect(readdirSync(join(lot.folder, 'packets'))).toEqual([]);
});

test('the folder of a packet that was removed for good is never another packet’s', async () => {
  const lot = newLot();
  const assemble = (editions: readonly string[]) => {
    const path = lot.temporaryPath();
    writeFileSync(path, 'the packet');
    const files = [{ path, name: 'packet.pdf', sha256: sha256('the packet'), bytes: 10 }];
    const tabs = editions.map((id) => ({ edition: id, place: 'inside', findings: [] }));
    const plan = JSON.parse(JSON.stringify({ ...bare, tabs }));
    return lot.keepPacket({ plan, practiceSha: lot.practiceSha(), files });
  };
  const bare = { code: 'X', title: 'Packet', day: '2026-04-14', recipient: 'x', files: [], findings: [] };
  const kept = await keepSecret(lot);
  const first = await assemble([kept.edition]);
  await lot.purge([kept.original], { reason: 'private' });
  const second = await assemble([]);
  expect(second.folder).not.toBe(first.folder);
  lot.sweep();
  expect(await lot.checkPacket(second.id)).toEqual([]);
});
