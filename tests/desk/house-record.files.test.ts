import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

async function keepSome(small: SmallLot): Promise<void> {
  const { desk } = small;
  const deed = [await small.pdf('deed.pdf', ['Deed', 'its second page'])];
  const id = [await small.pdf('id.pdf', ['Photo id'])];
  await desk.ask(
    'keep',
    { papers: [{ files: deed, kind: 'deed', number: '2026/1 <b>', issued: '2026-03-11' }] },
    small,
  );
  await desk.ask('keep', { papers: [{ files: id, kind: 'owner-id' }] }, small);
  await desk.ask(
    'record',
    { sort: 'receipt', title: 'Pump', amount: '240', file: await small.pdf('r.pdf', ['R']) },
    small,
  );
}

function allFiles(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .toSorted();
}

describe('the house record', () => {
  it('is plain folders, one PDF of all and an index, each file under its hash; private papers stay out', async () => {
    await using small = await openSmallLot();
    await keepSome(small);
    const folder = join(small.root, 'record');
    const made = await small.desk.ask('house-record', { folder: small.desk.tickets.offer(folder) }, small);
    const files = allFiles(folder);
    expect(made.files).toBe(files.length);
    expect(files.filter((file) => file.endsWith('Deed_2026-1-b_2026-03-11.pdf'))).toHaveLength(2);
    expect(files.some((file) => /photo/i.test(file))).toBe(false);
    expect(made.leftOut).toEqual([
      { title: expect.stringMatching(/photo id/i), why: expect.stringContaining('private') },
    ]);
    for (const line of readFileSync(join(folder, 'SHA-256.txt'), 'utf8').trimEnd().split('\n')) {
      const [hash, path = ''] = line.split('  ');
      expect(
        createHash('sha256')
          .update(readFileSync(join(folder, path)))
          .digest('hex'),
      ).toBe(hash);
    }
    const binder = await PDFDocument.load(readFileSync(join(folder, 'site-binder.pdf')), { updateMetadata: false });
    expect(binder.getPageCount()).toBeGreaterThanOrEqual(4);
    const readable = files.find((file) => file.includes('Deed_') && !file.includes('as-it-came')) ?? '';
    expect(
      (await PDFDocument.load(readFileSync(join(folder, readable)), { updateMetadata: false })).getPageCount(),
    ).toBe(2);
    const index = readFileSync(join(folder, 'index.html'), 'utf8');
    expect(index).toContain('2026/1 &lt;b&gt;');
    for (const [, target = ''] of index.matchAll(/href="([^"]*)"/g)) {
      expect(existsSync(join(folder, decodeURIComponent(target)))).toBe(true);
    }
    expect(readdirSync(join(small.folder, 'working')).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('holds private papers only where that was said, and says to think twice', async () => {
    await using small = await openSmallLot();
    await keepSome(small);
    const folder = join(small.root, 'record');
    const given = { folder: small.desk.tickets.offer(folder), privates: true };
    const made = await small.desk.ask('house-record', given, small);
    expect(allFiles(folder).some((file) => /photo/i.test(file))).toBe(true);
    expect(made.leftOut).toEqual([]);
    expect(made.notes.join(' ')).toMatch(/private/i);
  });

  it('goes into no used folder, and leaves nothing behind where a kept file is damaged', async () => {
    await using small = await openSmallLot();
    await keepSome(small);
    const used = join(small.root, 'used');
    mkdirSync(used);
    writeFileSync(join(used, 'x.txt'), 'x');
    const into = (path: string) => small.desk.ask('house-record', { folder: small.desk.tickets.offer(path) }, small);
    await expect(into(used)).rejects.toMatchObject({ code: 'wrong use' });
    for (const file of allFiles(join(small.folder, 'originals'))) {
      writeFileSync(join(small.folder, 'originals', file), 'changed');
    }
    await expect(into(join(small.root, 'record'))).rejects.toMatchObject({ code: 'paper damaged' });
    expect(existsSync(join(small.root, 'record'))).toBe(false);
    expect(readdirSync(small.root).filter((name) => name.startsWith('.house'))).toEqual([]);
    rmSync(used, { recursive: true });
  });
});

describe('a lot between two computers', () => {
  it('goes out as a bundle, is restored, worked on there, and taken over here; undo takes it back', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await keepSome(small);
    await desk.ask('target', { day: '2027-03-12' }, small);
    await desk.ask('calendar', {}, small);
    const out = await desk.ask('bundle', {}, small);
    expect(out).toMatchObject({ name: 'heron-lane-2026-04-14.lot.zip', notes: [] });
    const there = await desk.ask('restore', {
      bundle: out.ticket,
      folder: desk.tickets.offer(join(small.root, 'there')),
    });
    expect(there).toMatchObject({ title: 'Heron Lane', notes: [] });
    await desk.ask('target', { day: '2027-04-01' }, there);
    const files = [await small.pdf('survey.pdf', ['Survey'])];
    await desk.ask('keep', { papers: [{ files, kind: 'boundary-survey', number: 'B-1' }] }, there);
    await desk.ask('calendar', {}, { ...there, on: '2026-04-20' });
    const back = await desk.ask('bundle', {}, there);
    const told: string[] = [];
    desk.on('changed', ({ act }) => told.push(act));
    const seen = await desk.ask('merge', { bundle: back.ticket, look: true }, small);
    expect(seen).toMatchObject({ act: undefined, conflicts: [] });
    const merged = await desk.ask('merge', { bundle: back.ticket }, small);
    expect(merged.taken).toEqual(expect.arrayContaining(['the lot itself', '1 paper', '1 edition of a paper']));
    expect(told).toEqual([merged.act]);
    const { papers } = await desk.ask('papers', { kind: 'boundary-survey' }, small);
    expect(papers[0]?.editions[0]?.number).toBe('B-1');
    // Their calendar counted the moved day already: here it is no second change.
    expect((await desk.ask('calendar', {}, { ...small, on: '2026-04-20' })).changes).toEqual([]);
    await desk.ask('undo', {}, small);
    expect((await desk.ask('read-lot', {}, small)).target).toBe('2027-03-12');
  });
});
