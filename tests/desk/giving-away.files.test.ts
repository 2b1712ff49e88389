import { copyFileSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { plainPages } from '../../core/desk/features/intake/plain-pages.ts';
import { keepFile } from '../../core/intake/keep-file.ts';
import { readPages } from '../../core/intake/ocr/read-pages.ts';
import { plainText } from '../../core/intake/reading/page-text.ts';
import { openLot } from '../../core/store/index.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

const samples = join(import.meta.dirname, '..', '..', 'sample-project', 'papers');

async function keepOne(small: SmallLot, file: string, kind: string): Promise<string> {
  const { desk } = small;
  const { kept, refused } = await desk.ask('keep', { papers: [{ files: [file], kind, number: 'N-1' }] }, small);
  expect(refused).toEqual([]);
  return kept[0]?.edition ?? '';
}

async function textsOf({ desk }: SmallLot, ticket: string): Promise<readonly string[]> {
  return (await readPages(desk.tickets.look(ticket).path, 'made.pdf')).map(plainText);
}

it('a blacked-out copy shows nothing of what lay beneath, and the paper and its file stay as they are', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('statement.pdf', ['Account 4711-0815 of the owner', 'Second page']);
  const edition = await keepOne(small, file, 'deed');
  const places = [{ page: 0, x: 60, y: 690, width: 200, height: 30 }];
  const made = await desk.ask('black-out', { edition, places }, small);
  expect(made.notes.join(' ')).toMatch(/what lay beneath is not in these pages/);
  const copy = await desk.ask('pages', { edition: made.edition }, small);
  expect(copy).toMatchObject({ number: 'N-1', originals: [], current: true });
  expect(copy.links).toMatchObject([{ direction: 'to', word: 'made from', edition }]);
  const texts = await textsOf(small, copy.pages[0]?.ticket ?? '');
  expect(texts.join(' ')).not.toContain('4711');
  expect(texts[1]).toContain('Second page');
  const bytes = readFileSync(desk.tickets.look(copy.pages[0]?.ticket ?? '').path).toString('latin1');
  expect(bytes).not.toContain('4711');
  const before = await desk.ask('pages', { edition }, small);
  expect((await textsOf(small, before.pages[0]?.ticket ?? '')).join(' ')).toContain('4711');
  expect(before.originals.map(({ name }) => name)).toEqual(['statement.pdf']);
  // Kept once more, the file shows its own pages again, not the blackened ones.
  const { kept } = await desk.ask('keep', { papers: [{ files: [file], kind: 'other', title: 'Again' }] }, small);
  const again = await desk.ask('pages', { edition: kept[0]?.edition ?? '' }, small);
  expect((await textsOf(small, again.pages[0]?.ticket ?? '')).join(' ')).toContain('4711');
  await desk.ask('undo', {}, small);
  await desk.ask('undo', {}, small);
  expect((await desk.ask('papers', {}, small)).papers[0]?.editions.length).toBe(1);
  const beyond = [{ page: 7, x: 0, y: 0, width: 10, height: 10 }];
  await expect(desk.ask('black-out', { edition, places: beyond }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('pages that were cleaned up as asked never stand in when the same file is kept plainly, nor the reverse', async () => {
  await using small = await openSmallLot();
  const { desk, root, folder } = small;
  const photo = join(root, 'photo.jpg');
  const sheet = { create: { width: 300, height: 400, channels: 3, background: '#8a8f94' } } as const;
  await sharp(sheet).jpeg().toFile(photo);
  const plain = await keepOne(small, desk.tickets.offer(photo), 'deed');
  const shown = (await desk.ask('pages', { edition: plain }, small)).pages[0];
  const kept = { job: 'keep', input: photo, name: 'photo.jpg', output: join(folder, 'working', 'made.part') } as const;
  const clean = { contrast: true };
  const { rendition, sha256, bytes } = await keepFile({ ...kept, recipe: { clean } });
  expect(rendition.asked).toBe(JSON.stringify({ clean }));
  await desk.close();
  {
    using lot = openLot(folder, { holder: { program: 'test', host: 'here', pid: process.pid } });
    await lot.keepRendition(kept.output, { rendition, sha256, bytes });
    expect(lot.renditionsOf(rendition.source).map(({ asked }) => asked)).toEqual([rendition.asked, '']);
    expect(plainPages(lot, rendition.source)).toMatchObject({ asked: '', sealed: false });
    expect(plainPages(lot, rendition.source)?.sha256).not.toBe(sha256);
    expect(shown).toBeDefined();
  }
});

it('a smaller copy keeps to the limit, told with both sizes; a size nobody can read is refused', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const document = await PDFDocument.create();
  const noise = { type: 'gaussian', mean: 200, sigma: 40 } as const;
  const scan = await sharp({ create: { width: 1700, height: 2200, channels: 3, background: 'white', noise } })
    .jpeg({ quality: 95 })
    .toBuffer();
  const picture = await document.embedJpg(scan);
  document.addPage([612, 792]).drawImage(picture, { x: 0, y: 0, width: 612, height: 792 });
  const path = join(root, 'scan.pdf');
  writeFileSync(path, await document.save());
  const edition = await keepOne(small, desk.tickets.offer(path), 'deed');
  const { files } = await desk.ask('slim', { edition, most: '1500 kB' }, small);
  const [made] = files;
  expect(made).toMatchObject({ fits: true, name: 'Deed, smaller.pdf' });
  expect(made?.after).toBeLessThanOrEqual(1_500_000);
  expect(made?.before).toBeGreaterThan(2_000_000);
  expect(statSync(desk.tickets.look(made?.ticket ?? '').path).size).toBe(made?.after);
  await expect(desk.ask('slim', { edition, most: 'small' }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('what a digital signature says stands on the paper, and its pages are never pressed', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const path = join(root, 'letter.pdf');
  copyFileSync(join(samples, 'Flood letter (signed).pdf'), path);
  const edition = await keepOne(small, desk.tickets.offer(path), 'other');
  const paper = await desk.ask('pages', { edition }, small);
  expect(paper.sealed).toBe(true);
  expect(paper.notes.join(' ')).toMatch(/sign/i);
  const pressed = desk.ask('slim', { edition, most: '10 kB' }, small);
  await expect(pressed).rejects.toMatchObject({ message: expect.stringMatching(/carries a seal/) });
});
