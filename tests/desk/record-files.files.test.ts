import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

/** A photo as a phone takes one, dated by its camera (EXIF DateTimeOriginal, JEITA CP-3451). */
async function photo({ desk, root }: SmallLot, name: string, taken?: string): Promise<string> {
  const path = join(root, name);
  const shade = name.length * 7;
  const plain = sharp({ create: { width: 800, height: 600, channels: 3, background: { r: shade, g: 90, b: 120 } } });
  const dated = taken === undefined ? plain : plain.withExif({ IFD2: { DateTimeOriginal: taken } });
  writeFileSync(path, await dated.jpeg().toBuffer());
  return desk.tickets.offer(path);
}

it('many photos are noted in one act, each with the day its camera tells and a small picture', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [
    await photo(small, 'a.jpg', '2026:03:21 10:11:12'),
    await photo(small, 'bb.jpg', '2026:02:01 08:00:00'),
    await photo(small, 'ccc.jpg'),
  ];
  const said = { files, place: 'Bath', wall: 'behind the tub', trade: 'plumbing' };
  const { noted, refused, act } = await desk.ask('record-files', said, small);
  expect(refused).toEqual([]);
  expect(noted.map(({ day, by }) => [day, by])).toEqual([
    ['2026-03-21', 'the camera'],
    ['2026-02-01', 'the camera'],
    ['2026-04-14', 'today'],
  ]);
  const { records } = await desk.ask('records', {}, small);
  expect(records.map(({ day, place, wall, file }) => [day, place, wall, file])).toEqual([
    ['2026-02-01', 'Bath', 'behind the tub', 'bb.jpg'],
    ['2026-03-21', 'Bath', 'behind the tub', 'a.jpg'],
    ['2026-04-14', 'Bath', 'behind the tub', 'ccc.jpg'],
  ]);
  const glimpse = await sharp(readFileSync(desk.tickets.look(records[0]?.small ?? '').path)).metadata();
  expect([glimpse.width, glimpse.height, glimpse.format]).toEqual([320, 240, 'jpeg']);
  await desk.ask('undo', { act }, small);
  expect((await desk.ask('records', {}, small)).records).toEqual([]);
});

it('the same photo is not noted twice, and what is no picture is refused by itself', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const one = await photo(small, 'a.jpg', '2026:03:21 10:11:12');
  writeFileSync(join(root, 'list.txt'), 'just words');
  writeFileSync(join(root, 'torn.jpg'), readFileSync(desk.tickets.look(one).path).subarray(0, 900));
  const files = [one, desk.tickets.offer(join(root, 'list.txt')), desk.tickets.offer(join(root, 'torn.jpg'))];
  const first = await desk.ask('record-files', { files }, small);
  expect(first.noted).toMatchObject([{ already: false, title: 'a' }]);
  expect(first.refused.map(({ file }) => file)).toEqual(['list.txt', 'torn.jpg']);
  expect((await desk.ask('record-files', { files: [one] }, small)).noted).toMatchObject([{ already: true }]);
  expect((await desk.ask('records', {}, small)).records.length).toBe(1);
});

it('receipts take an amount; several records are corrected and removed at once, and taken back', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const files = [await photo(small, 'r1.jpg'), await photo(small, 'r22.jpg')];
  const { noted } = await desk.ask('record-files', { files, sort: 'receipt', amount: '$48.50', title: 'Nails' }, small);
  const ids = noted.map(({ record }) => record);
  await desk.ask('correct-records', { records: ids, trade: 'framing', day: '2026-04-01', clear: ['amount'] }, small);
  const corrected = (await desk.ask('records', { sort: 'receipt' }, small)).records;
  expect(corrected).toMatchObject([
    { trade: 'framing', day: '2026-04-01', amount: undefined },
    { trade: 'framing', day: '2026-04-01', amount: undefined },
  ]);
  await desk.ask('undo', {}, small);
  expect((await desk.ask('records', {}, small)).records).toMatchObject([{ amount: 4850 }, { amount: 4850 }]);
  await desk.ask('remove-records', { records: ids }, small);
  expect((await desk.ask('records', {}, small)).records).toEqual([]);
  await desk.ask('undo', {}, small);
  expect((await desk.ask('records', {}, small)).records.length).toBe(2);
  await expect(desk.ask('correct-records', { records: ids }, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('photos from the table leave it, and photos noted in bulk are laid on a photo sheet', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  await desk.ask('lay-down', { files: [await photo(small, 'a.jpg', '2026:03:21 10:11:12')] }, small);
  const [item] = (await desk.ask('table', {}, small)).items;
  await desk.ask('record-files', { files: [item?.ticket ?? ''], place: 'Crawl space' }, small);
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
  const sheet = await desk.ask('write-paper', { sort: 'photo-sheet', place: 'crawl' }, small);
  expect(sheet.notes.join(' ')).not.toMatch(/left out/);
  expect(sheet.pages).toBe(1);
});
