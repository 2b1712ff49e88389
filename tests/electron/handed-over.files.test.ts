import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { HandedOver } from '../../electron/host/handed-over.ts';
import { writePdf } from '../desk/small-lot.ts';
import { answered, type Kit, openKit, scratch, textOf, windowDeskIn } from './hosts-kit.ts';

const handed = (kit: Kit): readonly string[] =>
  readdirSync(join(kit.root, 'config', 'handed-over', `${process.pid}-${kit.loopback.port}`));

async function upload(kit: Kit, bytes: Buffer, window = 'w1'): Promise<string> {
  const headers = { 'x-file-name': 'deed.pdf', 'x-lotfile-window': window };
  return textOf(answered(JSON.parse((await kit.post('/files', bytes, headers)).text)), 'ticket');
}

async function newLot(kit: Kit): Promise<string> {
  const folder = textOf(answered(await kit.desk.act('make-folder', { title: 'Ridge' })), 'folder');
  return textOf(answered(await kit.desk.ask('new-lot', { folder, title: 'Ridge' }, {}, 'w1')), 'lot');
}

async function deed(kit: Kit): Promise<Buffer> {
  return readFileSync(await writePdf(join(kit.root, 'deed.pdf'), ['Deed']));
}

describe('files handed over as bytes', () => {
  it('are let go once they lie on the table, and the ticket says so', async () => {
    await using kit = await openKit();
    const lot = await newLot(kit);
    const ticket = await upload(kit, await deed(kit));
    expect(handed(kit)).toHaveLength(1);
    answered(await kit.desk.ask('lay-down', { files: [ticket] }, { lot }, 'w1'));
    expect(handed(kit)).toEqual([]);
    const again = await kit.desk.ask('lay-down', { files: [ticket] }, { lot }, 'w1');
    expect(again).toMatchObject({ ok: false, error: { code: 'not found', next: 'Choose the file again.' } });
  });

  it('stay for another try where a paper was refused', async () => {
    await using kit = await openKit();
    const lot = await newLot(kit);
    const ticket = await upload(kit, Buffer.from('%PDF-1.7 cut short'));
    const papers = [{ files: [ticket], kind: 'deed' }];
    expect(await kit.desk.ask('keep', { papers }, { lot }, 'w1')).toMatchObject({ answer: { refused: [{}] } });
    expect(handed(kit)).toHaveLength(1);
  });

  it('go with the window they came from, and those of other windows stay', async () => {
    await using kit = await openKit();
    await upload(kit, await deed(kit), 'w1');
    await upload(kit, await deed(kit), 'w2');
    await kit.desk.windowGone('w1');
    expect(handed(kit)).toHaveLength(1);
    await kit.desk.windowGone('w2');
    expect(handed(kit)).toEqual([]);
  });

  it('are never the person’s own: a file of their disk stays where it is', async () => {
    await using kit = await openKit();
    const lot = await newLot(kit);
    const path = await writePdf(join(kit.root, 'own.pdf'), ['Own']);
    const { ticket } = kit.desk.take(path, 'own.pdf', 1);
    answered(await kit.desk.ask('lay-down', { files: [ticket] }, { lot }, 'w1'));
    await kit.desk.windowGone('w1');
    expect(existsSync(path)).toBe(true);
  });

  it('of a host that ended without a word are swept at the next start; those of one that lives are left', () => {
    using at = scratch();
    const base = join(at.root, 'handed-over');
    // No process has number 2^30; number 1 always lives.
    for (const name of ['1073741824-4400', '1-4401', '4402']) {
      mkdirSync(join(base, name), { recursive: true });
      writeFileSync(join(base, name, 'a-paper'), 'x');
    }
    const own = new HandedOver(at.root, '4403');
    expect(new Set(readdirSync(base))).toEqual(new Set(['1-4401', `${process.pid}-4403`]));
    own.clear();
    expect(readdirSync(base)).toEqual(['1-4401']);
  });
});

it('saves a copy without touching a file that happens to be called NAME.part', async () => {
  using at = scratch();
  const to = join(at.root, 'packet.pdf');
  writeFileSync(`${to}.part`, 'something of the person’s own');
  const dialogs = { chooseFolder: async () => undefined, saveAs: async () => to, showFile: () => undefined };
  await using desk = windowDeskIn(at.root, { dialogs });
  const path = await writePdf(join(at.root, 'made.pdf'), ['Packet']);
  answered(await desk.act('save', { ticket: desk.desk.tickets.offer(path) }));
  expect(readFileSync(to)).toEqual(readFileSync(path));
  expect(readFileSync(`${to}.part`, 'utf8')).toBe('something of the person’s own');
  expect(readdirSync(at.root).filter((name) => name.endsWith('.part'))).toEqual(['packet.pdf.part']);
});
