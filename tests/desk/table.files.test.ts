import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

it('what is laid down is kept from the table, leaves it then, and comes back when the keeping is undone', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const file = await small.pdf('deed.pdf', ['Warranty deed']);
  const told: string[] = [];
  const off = desk.on('changed', ({ act }) => told.push(act));
  const { laid, refused } = await desk.ask('lay-down', { files: [file] }, small);
  expect(refused).toEqual([]);
  expect(laid).toMatchObject([{ item: 'deed.pdf', name: 'deed.pdf' }]);
  const [item] = (await desk.ask('table', {}, small)).items;
  expect(item).toMatchObject({ item: 'deed.pdf', sort: 'pdf', arriving: false, already: undefined });
  const ticket = item?.ticket ?? '';
  expect((await desk.ask('table', {}, small)).items[0]?.ticket).toBe(ticket);
  const { kept } = await desk.ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, small);
  expect(kept).toMatchObject([{ title: 'Deed', pages: 1 }]);
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
  expect(readdirSync(join(folder, 'table'))).toEqual([]);
  expect(await desk.ask('undo', {}, small)).toMatchObject({ onTable: ['deed.pdf'], notes: [] });
  expect((await desk.ask('table', {}, small)).items).toMatchObject([{ item: 'deed.pdf', already: undefined }]);
  const bytes = readFileSync(join(folder, 'table', 'deed.pdf'));
  expect(bytes.equals(readFileSync(desk.tickets.look(file).path))).toBe(true);
  expect(told).toEqual(['table', expect.stringMatching(/^\d+$/), expect.stringMatching(/^\d+$/)]);
  off();
});

it('one file that serves two papers stays until both are kept, one that was refused stays', async () => {
  await using small = await openSmallLot();
  const { desk, folder, root } = small;
  writeFileSync(join(root, 'page.pdf'), '<html>log in</html>');
  const files = [await small.pdf('both.pdf', ['Certificate']), desk.tickets.offer(join(root, 'page.pdf'))];
  await desk.ask('lay-down', { files }, small);
  const { items } = await desk.ask('table', {}, small);
  const ticketOf = (name: string): string => items.find(({ item }) => item === name)?.ticket ?? '';
  const answer = await desk.ask(
    'keep',
    {
      papers: [
        { files: [ticketOf('both.pdf')], kind: 'deed' },
        { files: [ticketOf('both.pdf')], kind: 'boundary-survey' },
        { files: [ticketOf('page.pdf')], kind: 'plans' },
      ],
    },
    small,
  );
  expect(answer.kept.map(({ title }) => title)).toEqual(['Deed', 'Boundary survey']);
  expect(readdirSync(join(folder, 'table'))).toEqual(['page.pdf']);
});

it('a file still being written can’t be kept, and is not lost by trying', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const whole = readFileSync(desk.tickets.look(await small.pdf('deed.pdf', ['Deed'])).path);
  writeFileSync(join(folder, 'table', 'deed.pdf.part'), whole);
  const [item] = (await desk.ask('table', {}, small)).items;
  expect(item).toMatchObject({ arriving: true });
  const { refused } = await desk.ask('keep', { papers: [{ files: [item?.ticket ?? ''], kind: 'deed' }] }, small);
  expect(refused).toMatchObject([{ error: { code: 'file refused', next: expect.stringMatching(/arrived/) } }]);
  expect(readdirSync(join(folder, 'table'))).toEqual(['deed.pdf.part']);
});

it('says of a file that is kept already which paper it is, and puts what is not wanted aside', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const file = await small.pdf('deed.pdf', ['Deed']);
  await desk.ask('keep', { papers: [{ files: [file], kind: 'deed' }] }, small);
  expect((await desk.ask('lay-down', { files: [file] }, small)).laid).toMatchObject([{ already: 'Deed' }]);
  expect((await desk.ask('table', {}, small)).items).toMatchObject([{ already: 'Deed' }]);
  expect(await desk.ask('put-aside', { item: 'deed.pdf' }, small)).toMatchObject({ name: 'deed.pdf' });
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
  expect(readdirSync(join(folder, 'table', 'put-aside'))).toEqual(['deed.pdf']);
  expect((await desk.ask('table', {}, small)).aside).toEqual(['deed.pdf']);
  expect(await desk.ask('take-up', { item: 'deed.pdf' }, small)).toMatchObject({ name: 'deed.pdf' });
  expect((await desk.ask('table', {}, small)).items).toMatchObject([{ item: 'deed.pdf' }]);
  await expect(desk.ask('take-up', { item: 'deed.pdf' }, small)).rejects.toMatchObject({ code: 'not found' });
  await expect(desk.ask('put-aside', { item: '../lot.sqlite' }, small)).rejects.toMatchObject({ code: 'not found' });
});

it('undoing a keeping whose file is on the table lays no second copy there', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const file = await small.pdf('deed.pdf', ['Deed']);
  await desk.ask('keep', { papers: [{ files: [file], kind: 'deed' }] }, small);
  await desk.ask('lay-down', { files: [file] }, small);
  await desk.ask('undo', {}, small);
  expect(readdirSync(join(folder, 'table'))).toEqual(['deed.pdf']);
  // Done again, and undone once more: still one file.
  await desk.ask('undo', { act: (await desk.ask('history', {}, small)).acts[0]?.act }, small);
  expect((await desk.ask('table', {}, small)).items).toMatchObject([{ already: 'Deed' }]);
  await desk.ask('undo', {}, small);
  expect(readdirSync(join(folder, 'table'))).toEqual(['deed.pdf']);
});

it('a photo noted with its file has a ticket to its bytes', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const photo = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0]);
  writeFileSync(join(root, 'wall.jpg'), photo);
  const file = desk.tickets.offer(join(root, 'wall.jpg'));
  await desk.ask('record', { sort: 'photo', title: 'North wall', file }, small);
  await desk.ask('record', { sort: 'note', title: 'Called the county' }, small);
  const { records } = await desk.ask('records', { sort: 'photo' }, small);
  expect(records).toMatchObject([{ title: 'North wall', file: 'wall.jpg' }]);
  expect(readFileSync(desk.tickets.look(records[0]?.ticket ?? '').path).equals(photo)).toBe(true);
  expect((await desk.ask('records', {}, small)).records).toHaveLength(2);
});
