import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

async function packetOf(small: SmallLot) {
  const { desk } = small;
  const files = [await small.pdf('deed.pdf', ['Deed'])];
  await desk.ask('keep', { papers: [{ files, kind: 'deed' }] }, small);
  const made = await desk.ask('assemble', { papers: ['deed'], title: 'For the bank', recipient: 'Bank' }, small);
  const file = made.files.find(({ sort }) => sort === 'packet');
  return { packet: made.packet, name: file?.name ?? '', path: desk.tickets.look(file?.ticket ?? '').path };
}

type Packet = Awaited<ReturnType<typeof packetOf>>;

/** Both ways out of the house, each refused with the same sentence, and nothing noted. */
async function expectRefused({ desk, lot }: SmallLot, { packet, name }: Packet, said: object): Promise<void> {
  const refused = { code: 'packet refused', about: name, ...said };
  await expect(desk.ask('mail-draft', { packet }, { lot })).rejects.toMatchObject(refused);
  const handed = desk.ask('hand-over', { packet, to: 'Bank', how: 'at the counter' }, { lot });
  await expect(handed).rejects.toMatchObject(refused);
  expect((await desk.ask('handovers', {}, { lot })).handovers).toEqual([]);
}

it('a packet whose file is missing, written over or removed for good goes nowhere, and its list says what is missing', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const made = await packetOf(small);
  const bytes = readFileSync(made.path);
  rmSync(made.path);
  await expectRefused(small, made, {
    message: `"${made.name}" is missing from the lot folder. The packet "For the bank" can't go out like this.`,
    next: expect.stringContaining('Assemble the packet again'),
  });
  const listed = await desk.ask('packet-files', { packet: made.packet }, small);
  expect(listed.missing).toEqual([made.name]);
  expect(listed.files.map(({ sort }) => sort)).toEqual(['errand sheet']);
  writeFileSync(made.path, Buffer.alloc(bytes.length, 0x20));
  await expectRefused(small, made, {
    message: expect.stringContaining(`"${made.name}" changed on the disk since it was kept.`),
  });
  writeFileSync(made.path, bytes);
  expect(await desk.ask('mail-draft', { packet: made.packet }, small)).toMatchObject({ attached: [made.name] });
  await desk.ask('purge', { edition: 'deed', reason: 'private', sure: true }, small);
  await expectRefused(small, made, {
    message: expect.stringContaining(`"${made.name}" was removed from this lot for good.`),
    next: 'Assemble the packet again.',
  });
});

it('a packet is kept with the practice it was laid out by, whatever another window changes while it is made', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  await packetOf(small);
  const rule = 'errands.permit-apply.needs.plans.copies';
  let said: Promise<object> | undefined;
  const off = desk.on('progress', ({ request }) => {
    if (request === 'assemble') said ??= desk.ask('clerk-said', { rule, value: 3, who: 'R. Amsel' }, small);
  });
  const made = await desk.ask('assemble', { papers: ['deed'], title: 'Again' }, small);
  off();
  await said;
  const { acts } = await desk.ask('history', {}, small);
  const titles = acts.map(({ title }) => title);
  expect(titles.indexOf('Packet "Again"')).toBeLessThan(titles.findIndex((title) => title.startsWith('R. Amsel said')));
  expect(acts.find(({ act }) => act === made.act)?.title).toBe('Packet "Again"');
  using db = Object.assign(new Database(join(folder, 'lot.sqlite'), { readonly: true }), {
    [Symbol.dispose](this: Database.Database) {
      this.close();
    },
  });
  const practices = db.prepare<[], string>('SELECT DISTINCT practice FROM packet').pluck().all();
  expect(practices).toHaveLength(1);
  expect(db.prepare('SELECT practice FROM lot').pluck().get()).not.toBe(practices[0]);
});
