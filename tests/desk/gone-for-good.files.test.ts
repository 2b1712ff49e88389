import { copyFileSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

const marker = 'Zyxwvut998877';

/** As plain bytes, and as base64 writes them at each of three beginnings: a mail draft carries files like that. */
const looks = [
  marker,
  ...[0, 1, 2].map((before) => {
    const text = Buffer.from(`${'x'.repeat(before)}${marker}`).toString('base64');
    return text.slice(before === 0 ? 0 : before + 1, -4);
  }),
].map((look) => look.toLowerCase());

/** Every file under a folder whose bytes hold the marker, by the part of the folder it lies in. */
function holding(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .filter((name) => {
      const bytes = readFileSync(join(folder, name)).toString('latin1').replaceAll('\r\n', '').toLowerCase();
      return looks.some((look) => bytes.includes(look));
    })
    .map((name) => name.split(/[\\/]/).slice(0, -1).join('/') || name);
}

/** A page with the marker as words, and once more as plain bytes that no packing hides. */
async function privatePdf(path: string): Promise<string> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.Helvetica);
  const page = document.addPage([612, 792]);
  page.drawText(`Account ${marker}`, { x: 72, y: 700, size: 14, font });
  page.node.addContentStream(document.context.register(document.context.stream(`% ${marker}\n`)));
  writeFileSync(path, await document.save({ useObjectStreams: false }));
  return path;
}

it('removing for good leaves no byte of a paper anywhere in the lot folder or where it was handed over', async () => {
  const handedOver = 'handed over';
  await using small = await openSmallLot();
  const { root } = small;
  const beside = join(root, handedOver);
  mkdirSync(join(beside, 'desktop'), { recursive: true });
  const file = await privatePdf(join(beside, 'desktop', 'a1b2'));
  const { openDesk } = await import('../../core/desk/desk.ts');
  await using desk = openDesk({ program: 'test', today: () => '2026-04-14', stays: true, handedOver: beside });
  const folder = join(root, 'lot two');
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Heron Lane' });
  const asking = { lot };
  const keep = async () => {
    const files = [desk.tickets.offer(file, 'statement.pdf')];
    const paper = { kind: 'deed', files, number: marker, issuer: `Bank ${marker}` };
    const { refused } = await desk.ask('keep', { papers: [paper] }, asking);
    expect(refused).toEqual([]);
  };
  await keep();
  const packet = { papers: ['deed'], title: 'For the bank', recipient: 'Bank' };
  await desk.ask('assemble', packet, asking);
  await desk.ask('undo', {}, asking);
  await desk.ask('undo', {}, asking);
  // The file lies on the table again; kept anew it leaves the table, so copies of it are laid there by hand.
  await keep();
  const made = await desk.ask('assemble', packet, asking);
  await desk.ask('mail-draft', { packet: made.packet }, asking);
  await desk.ask('bundle', {}, asking);
  await desk.ask('read', { edition: 'deed' }, asking);
  mkdirSync(join(folder, 'table', 'put-aside'), { recursive: true });
  for (const name of ['again.pdf', 'put-aside/older.pdf']) copyFileSync(file, join(folder, 'table', name));
  mkdirSync(join(folder, 'copies'), { recursive: true });
  copyFileSync(join(folder, 'lot.sqlite'), join(folder, 'copies', '2026-04-01.sqlite'));
  writeFileSync(join(folder, 'lot.before-0002-costs.sqlite'), marker);
  const before = holding(folder);
  for (const place of [
    'originals',
    'renditions',
    'packets',
    'working',
    'table',
    'table/put-aside',
    'copies',
    'cache',
  ]) {
    expect(
      before.some((name) => name === place || name.startsWith(`${place}/`)),
      place,
    ).toBe(true);
  }
  expect(before).toContain('lot.sqlite');
  expect(holding(beside)).toEqual(['desktop']);
  const gone = await desk.ask('purge', { edition: 'deed', reason: 'never asked for', sure: true }, asking);
  expect(gone).toMatchObject({ papers: ['Deed'], packets: ['For the bank'], notes: [] });
  expect(holding(folder)).toEqual([]);
  expect(holding(beside)).toEqual([]);
  expect(readdirSync(join(folder, 'copies'))).toEqual(['2026-04-14.sqlite']);
  expect((await desk.ask('verify', {}, asking)).problems).toEqual([]);
  await desk.ask('close-lot', {}, asking);
});

it('a file whose keeping was undone can be removed for good by its name', async () => {
  await using small = await openSmallLot();
  const { desk, folder, root } = small;
  const files = [desk.tickets.offer(await privatePdf(join(root, 'statement.pdf')))];
  await desk.ask('keep', { papers: [{ kind: 'deed', files, number: marker }] }, small);
  await desk.ask('undo', {}, small);
  expect(holding(folder).length).toBeGreaterThan(2);
  const purge = { reason: 'private', sure: true };
  await expect(desk.ask('purge', { edition: 'nothing.pdf', ...purge }, small)).rejects.toMatchObject({
    code: 'not found',
  });
  await desk.ask('purge', { edition: 'statement.pdf', ...purge }, small);
  expect(holding(folder)).toEqual([]);
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
});
