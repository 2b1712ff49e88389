import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openSmallLot, writePdf } from './small-lot.ts';

/** An e-mail as RFC 5322 and RFC 2045 write one. */
async function mail(root: string): Promise<string> {
  const pdf = readFileSync(await writePdf(join(root, 'inside.pdf'), ['Binder of insurance']));
  const path = join(root, 'binder.eml');
  const lines = [
    'From: Orla Fenn <orla@fennick.example>',
    'To: owner@heron.example',
    'Subject: Your binder',
    'Date: Thu, 02 Apr 2026 10:15:00 -0500',
    'MIME-Version: 1.0',
    'Content-Type: multipart/mixed; boundary="b1"',
    '',
    '--b1',
    'Content-Type: text/plain; charset=utf-8',
    '',
    'Here is the binder you asked for.',
    '--b1',
    'Content-Type: application/pdf; name="binder.pdf"',
    'Content-Disposition: attachment; filename="binder.pdf"',
    'Content-Transfer-Encoding: base64',
    '',
    pdf.toString('base64').replace(/.{76}/g, '$&\r\n'),
    '--b1--',
    '',
  ];
  writeFileSync(path, lines.join('\r\n'));
  return path;
}

it('an e-mail laid down leaves its attachment on the table and becomes a note, its file kept byte for byte', async () => {
  await using small = await openSmallLot();
  const { desk, root, folder } = small;
  const path = await mail(root);
  const { laid, notes } = await desk.ask('lay-down', { files: [desk.tickets.offer(path)] }, small);
  expect(laid).toMatchObject([{ item: 'binder.pdf' }]);
  expect(notes[0]).toMatch(/“Your binder” is noted/);
  expect((await desk.ask('table', {}, small)).items.map(({ item }) => item)).toEqual(['binder.pdf']);
  const [note] = (await desk.ask('records', { sort: 'note' }, small)).records;
  expect(note).toMatchObject({ title: 'Your binder', day: '2026-04-02', file: 'binder.eml' });
  expect(note?.text).toContain('From: Orla Fenn');
  expect(note?.text).toContain('Here is the binder');
  expect(readFileSync(desk.tickets.look(note?.ticket ?? '').path).equals(readFileSync(path))).toBe(true);
  expect(readdirSync(join(folder, 'working')).filter((name) => name.endsWith('.pdf'))).toEqual([]);
});

it('the same e-mail once more lays nothing twice and notes nothing twice', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  const path = await mail(root);
  await desk.ask('lay-down', { files: [desk.tickets.offer(path)] }, small);
  await desk.ask('lay-down', { files: [desk.tickets.offer(path)] }, small);
  expect((await desk.ask('table', {}, small)).items.map(({ item }) => item)).toEqual(['binder.pdf']);
  expect((await desk.ask('records', {}, small)).records.length).toBe(1);
});

it('an e-mail put into the table folder by another program is opened by itself', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk, root, folder, lot } = small;
  const bytes = readFileSync(await mail(root));
  const opened = new Promise<void>((resolve) => {
    desk.on('changed', () => {
      void desk.ask('table', {}, { lot }).then(({ items }) => {
        if (items.some(({ item, reading }) => item === 'binder.pdf' && reading === 'done')) resolve();
      });
    });
  });
  writeFileSync(join(folder, 'table', 'from phone.eml'), bytes);
  await opened;
  expect((await desk.ask('table', {}, small)).items.map(({ item }) => item)).toEqual(['binder.pdf']);
  expect((await desk.ask('records', {}, small)).records).toMatchObject([{ title: 'Your binder' }]);
});

it('what can’t be opened stays on the table and says why', async () => {
  await using small = await openSmallLot();
  const { desk, root } = small;
  writeFileSync(join(root, 'photos.zip'), Buffer.concat([Buffer.from('PK\u0003\u0004'), Buffer.alloc(200)]));
  const { laid, notes } = await desk.ask('lay-down', { files: [desk.tickets.offer(join(root, 'photos.zip'))] }, small);
  expect(laid).toMatchObject([{ item: 'photos.zip' }]);
  expect(notes.join(' ')).toMatch(/"photos.zip"/);
  await expect(desk.ask('unpack', { item: 'nothing.zip' }, small)).rejects.toMatchObject({ code: 'not found' });
});
