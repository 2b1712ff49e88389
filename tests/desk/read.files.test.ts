import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writeScan } from './make-scan.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

const permit = [
  'Harrow County Environmental Health',
  'Onsite Wastewater Construction Authorization',
  'Permit number: EH-2026-0417',
  'Parcel number: 0482-19-7731',
  'Property address: 418 Heron Lane',
  'Bedrooms: 3',
  'Date issued: 03/02/2026',
  'Expires: 03/02/2031',
].join('\n\n');

async function tableOf({ desk, lot }: SmallLot) {
  return (await desk.ask('table', {}, { lot })).items;
}

/** Waits for what is told, as a window does: no clock of ours. */
function told({ desk }: SmallLot, done: () => Promise<boolean>): Promise<void> {
  return new Promise((resolve, reject) => {
    let asking = false;
    const look = (): void => {
      if (asking) return;
      asking = true;
      done().then((is) => {
        asking = false;
        if (!is) return;
        off();
        resolve();
      }, reject);
    };
    const off = desk.on('changed', look);
    look();
  });
}

it('reads a file: kind, dates, number and facts, each with page, place and the words there', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('eh.pdf', [permit]);
  const read = await desk.ask('read', { files: [file] }, small);
  expect(read.kinds[0]).toMatchObject({ kind: 'septic-permit' });
  expect(read.kinds[0]?.because.length).toBeGreaterThan(0);
  expect(read).toMatchObject({
    kind: 'septic-permit',
    pages: 1,
    blank: [],
    issued: { said: '2026-03-02', words: '2 Mar 2026', page: 0 },
    goodThrough: { said: '2031-03-02' },
    number: { said: 'EH-2026-0417', read: 'EH-2026-0417' },
    facts: { bedrooms: { said: '3' } },
  });
  expect(read.number?.place.width).toBeGreaterThan(10);
  expect(read.texts[0]).toContain('Heron Lane');
  expect(await desk.ask('papers', {}, small)).toEqual({ papers: [] });
});

it('what the lot knows of itself makes a parcel number sure, and tells of one that is another lot’s', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('eh.pdf', [permit]);
  await desk.ask('identity', { sort: 'parcel', text: '0482 19 7731' }, small);
  const ours = await desk.ask('read', { files: [file] }, small);
  expect(ours.facts.parcel).toMatchObject({ sureness: 'sure', because: expect.stringMatching(/own parcel/) });
  expect(ours.notes.join(' ')).not.toMatch(/not this lot/);
  await using other = await openSmallLot();
  await other.desk.ask('identity', { sort: 'parcel', text: '9999-00-1111' }, other);
  const theirs = await other.desk.ask('read', { files: [await other.pdf('eh.pdf', [permit])] }, other);
  expect(theirs.facts.parcel).toMatchObject({ sureness: 'guess' });
  expect(theirs.notes.join(' ')).toMatch(/0482-19-7731, is not this lot’s \(9999-00-1111\)/);
});

it('what lands in the table folder is told, waited for and read by itself, and read only once', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk, folder } = small;
  const file = await small.pdf('eh.pdf', [permit]);
  await desk.ask('lay-down', { files: [file] }, small);
  await told(small, async () => (await tableOf(small))[0]?.reading === 'done');
  const [item] = await tableOf(small);
  expect(item?.suggested).toMatchObject({ kind: 'septic-permit', number: { said: 'EH-2026-0417' } });
  const cached = readdirSync(join(folder, 'cache'), { recursive: true, encoding: 'utf8' });
  expect(cached.filter((name) => name.endsWith('.json')).length).toBe(2);
  const { kept } = await desk.ask(
    'keep',
    { papers: [{ files: [item?.ticket ?? ''], kind: 'septic-permit', number: 'EH-2026-0417' }] },
    small,
  );
  expect(kept).toMatchObject([{ pages: 1, already: false }]);
  expect(await tableOf(small)).toEqual([]);
  // The pages made for reading are the pages that were kept: nothing is left in the working folder.
  expect(readdirSync(join(folder, 'working')).filter((name) => name.endsWith('.pdf'))).toEqual([]);
});

it('a file of the table written over by another of the same length is read anew', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk, folder } = small;
  const path = join(folder, 'table', 'eh.pdf');
  const first = readFileSync(desk.tickets.look(await small.pdf('one.pdf', [permit])).path);
  const second = readFileSync(
    desk.tickets.look(await small.pdf('two.pdf', [permit.replace('EH-2026-0417', 'EH-2026-9999')])).path,
  );
  const bytes = Math.max(first.length, second.length);
  const filled = (pdf: Buffer) => Buffer.concat([pdf, Buffer.alloc(bytes - pdf.length, 0x0a)]);
  const number = async () => (await tableOf(small)).find(({ item }) => item === 'eh.pdf')?.suggested?.number?.said;
  writeFileSync(path, filled(first));
  await told(small, async () => (await number()) === 'EH-2026-0417');
  writeFileSync(path, filled(second));
  await told(small, async () => (await number()) === 'EH-2026-9999');
});

it('a web page under the name of a PDF is told as what it is, and the table goes on', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk, root } = small;
  writeFileSync(join(root, 'portal.pdf'), '<!doctype html><html>log in</html>');
  const files = [desk.tickets.offer(join(root, 'portal.pdf')), await small.pdf('eh.pdf', [permit])];
  await desk.ask('lay-down', { files }, small);
  await told(small, async () => (await tableOf(small)).every(({ reading }) => reading === 'done'));
  const items = await tableOf(small);
  expect(items.find(({ item }) => item === 'portal.pdf')).toMatchObject({
    unread: expect.stringMatching(/web page/),
    suggested: undefined,
  });
  expect(items.find(({ item }) => item === 'eh.pdf')?.suggested).toMatchObject({ kind: 'septic-permit' });
});

it('the words of a scan are found by the search with their page once it is kept', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const path = await writeScan(join(root, 'scan.pdf'), ['', 'Drainage easement\nalong the creek']);
  const file = desk.tickets.offer(path);
  const read = await desk.ask('read', { files: [file] }, small);
  expect(read).toMatchObject({ pages: 2, blank: [0] });
  await desk.ask('keep', { papers: [{ files: [file], kind: 'other', title: 'Something' }] }, small);
  const { found } = await desk.ask('find', { text: 'easement' }, small);
  expect(found).toMatchObject([{ page: 2 }]);
  const again = await desk.ask('read', { edition: 'Something' }, small);
  expect(again.texts[1]).toContain('easement');
});

it('a second scan of the same certificate is told as one', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const first = await small.pdf('eh.pdf', [permit]);
  const paper = { kind: 'septic-permit', number: 'EH 2026 0417' };
  await desk.ask('keep', { papers: [{ files: [first], ...paper }] }, small);
  const second = await small.pdf('eh again.pdf', [`${permit}\n\nScanned again`]);
  const { again } = await desk.ask('read', { files: [second] }, small);
  expect(again).toMatchObject({ number: 'EH 2026 0417', why: expect.stringMatching(/same number/) });
  expect((await desk.ask('read', { edition: 'septic-permit' }, small)).again).toBeUndefined();
});

it('removing a paper for good removes what was read off it', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const file = await small.pdf('eh.pdf', [permit]);
  await desk.ask('read', { files: [file] }, small);
  await desk.ask('keep', { papers: [{ files: [file], kind: 'septic-permit' }] }, small);
  const names = () =>
    readdirSync(join(folder, 'cache'), { recursive: true, encoding: 'utf8' }).filter((name) => name.includes('.'));
  expect(names().length).toBe(2);
  await desk.ask('purge', { edition: 'septic-permit', reason: 'private', sure: true }, small);
  expect(names()).toEqual([]);
  expect(existsSync(folder)).toBe(true);
});
