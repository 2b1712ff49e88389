import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { WindowEvent } from '../../core/desk/door.ts';
import type { WindowDesk } from '../../electron/host/window-desk.ts';
import { writePdf } from '../desk/small-lot.ts';
import { answered, scratch, textOf, windowDeskIn } from './hosts-kit.ts';

async function newLot(desk: WindowDesk, title: string, window = ''): Promise<string> {
  const { folder } = { folder: textOf(answered(await desk.act('make-folder', { title })), 'folder') };
  return textOf(answered(await desk.ask('new-lot', { folder, title }, {}, window)), 'lot');
}

describe('the host a window speaks to', () => {
  it('makes a lot in a folder named after it, and offers it the next time under the same key', async () => {
    using at = scratch();
    let key = '';
    {
      await using desk = windowDeskIn(at.root);
      await newLot(desk, 'Hạnh’s house, Lot 7');
      const { lots } = JSON.parse(JSON.stringify(answered(await desk.act('host', {}))));
      expect(lots).toMatchObject([{ title: 'Hạnh’s house, Lot 7', lastOpened: '2026-04-14', gone: false }]);
      expect(lots[0].place).toMatch(/^hanh-s-house-lot-7, in /);
      key = lots[0].key;
    }
    await using desk = windowDeskIn(at.root);
    const { lots } = JSON.parse(JSON.stringify(answered(await desk.act('host', {}))));
    expect(lots[0].key).toBe(key);
    answered(await desk.ask('open-lot', { folder: lots[0].folder }, {}));
    expect(readdirSync(join(at.root, 'lots'))).toEqual(['hanh-s-house-lot-7']);
  });

  it('never uses a folder that is there: a second lot of the same name stands beside the first', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    await newLot(desk, 'Ridge');
    await newLot(desk, 'ridge!');
    await newLot(desk, '???');
    await newLot(desk, 'CON');
    expect(new Set(readdirSync(join(at.root, 'lots')))).toEqual(new Set(['lot', 'lot-con', 'ridge', 'ridge-2']));
  });

  it('keeps the list of lots for this person alone, tells a lot that moved away, and forgets one when asked', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const lot = await newLot(desk, 'Ridge');
    await newLot(desk, 'Hollow');
    const list = join(at.root, 'config', 'lots.json');
    if (process.platform !== 'win32') expect(statSync(list).mode & 0o777).toBe(0o600);
    await desk.ask('close-lot', {}, { lot });
    renameSync(join(at.root, 'lots', 'ridge'), join(at.root, 'elsewhere'));
    expect(desk.recents.list().map(({ title, gone }) => [title, gone])).toEqual([
      ['Hollow', false],
      ['Ridge', true],
    ]);
    const key = desk.recents.list()[1]?.key;
    expect(answered(await desk.act('forget-lot', { key }))).toEqual({ forgotten: true });
    expect(answered(await desk.act('forget-lot', { key }))).toEqual({ forgotten: false });
    expect(desk.recents.list().map(({ title }) => title)).toEqual(['Hollow']);
    expect(existsSync(join(at.root, 'elsewhere', 'lot.sqlite'))).toBe(true);
  });

  it('offers a lot that was left out no more as one that lies there, until it is opened again', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    await newLot(desk, 'Ridge');
    const [ridge] = desk.recents.list();
    answered(await desk.act('forget-lot', { key: ridge?.key }));
    // One whose folder is gone since can't be had back, and is not offered.
    const lot = await newLot(desk, 'Hollow');
    answered(await desk.ask('close-lot', {}, { lot }));
    answered(await desk.act('forget-lot', { key: desk.recents.list()[0]?.key }));
    rmSync(join(at.root, 'lots', 'hollow'), { recursive: true });
    const { lots, found, leftOut } = JSON.parse(JSON.stringify(answered(await desk.act('host', {}))));
    expect([lots, found]).toEqual([[], []]);
    expect(leftOut).toMatchObject([{ title: 'ridge', place: expect.stringMatching(/^ridge, in /) }]);
    answered(await desk.ask('open-lot', { folder: leftOut[0].folder }, {}));
    expect(answered(await desk.act('host', {}))).toMatchObject({ lots: [{ title: 'Ridge' }], found: [], leftOut: [] });
    expect(desk.recents.leftOut().map((path) => basename(path))).toEqual(['hollow']);
  });

  it('starts with an empty list where its file was damaged', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    await newLot(desk, 'Ridge');
    writeFileSync(join(at.root, 'config', 'lots.json'), '{"lots": [{"path": 7}');
    expect(desk.recents.list()).toEqual([]);
    await newLot(desk, 'Hollow');
    expect(desk.recents.list()).toHaveLength(1);
  });

  it('shares a lot among windows: closed in one it stays open in the other, and the last one lets it go', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const lot = await newLot(desk, 'Ridge', 'first');
    const folder = desk.folderTicket(join(at.root, 'lots', 'ridge'));
    expect(textOf(answered(await desk.ask('open-lot', { folder }, {}, 'second')), 'lot')).toBe(lot);
    expect(answered(await desk.ask('close-lot', {}, { lot }, 'first'))).toEqual({ closed: true });
    answered(await desk.ask('read-lot', {}, { lot }, 'second'));
    await desk.windowGone('second');
    expect(await desk.ask('read-lot', {}, { lot }, 'second')).toMatchObject({
      ok: false,
      error: { code: 'not found' },
    });
  });

  it('does not close a lot under work that is going on when its window goes', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const lot = await newLot(desk, 'Ridge', 'first');
    const deed = await writePdf(join(at.root, 'deed.pdf'), ['Deed']);
    const { ticket } = desk.take(deed, 'deed.pdf', 1);
    const keeping = desk.ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, { lot }, 'first');
    await desk.windowGone('first');
    expect(answered(await keeping)).toMatchObject({ kept: [{ title: 'Deed' }], refused: [] });
    expect(await desk.ask('read-lot', {}, { lot })).toMatchObject({ ok: false });
  });

  it('closes a lot only when the work in it is done, even where its own window asked for it', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const lot = await newLot(desk, 'Ridge');
    const deed = await writePdf(join(at.root, 'deed.pdf'), ['Deed']);
    const { ticket } = desk.take(deed, 'deed.pdf', 1);
    const keeping = desk.ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, { lot });
    expect(answered(await desk.ask('close-lot', {}, { lot }))).toEqual({ closed: true });
    expect(answered(await keeping)).toMatchObject({ kept: [{ title: 'Deed' }] });
    expect(await desk.ask('close-lot', {}, { lot })).toMatchObject({ ok: false, error: { code: 'not found' } });
  });

  it('ended in the middle of work it stops it, and the lot is whole the next time', async () => {
    using at = scratch();
    const desk = windowDeskIn(at.root);
    const lot = await newLot(desk, 'Ridge');
    const path = await writePdf(join(at.root, 'deed.pdf'), ['Deed', 'Two', 'Three']);
    const { ticket } = desk.take(path, 'deed.pdf', 1);
    const begun = new Promise<void>((resolve) => {
      desk.on(({ event }) => event === 'progress' && resolve());
    });
    const keeping = desk.ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, { lot });
    await begun;
    await desk.close();
    expect(await keeping).toMatchObject({ ok: false, error: { code: 'stopped' } });
    await using again = windowDeskIn(at.root);
    const folder = again.folderTicket(join(at.root, 'lots', 'ridge'));
    const opened = answered(await again.ask('open-lot', { folder }, {}));
    expect(opened).toMatchObject({ swept: 0 });
    const reply = await again.ask('verify', {}, { lot: textOf(opened, 'lot') });
    expect(answered(reply)).toMatchObject({ problems: [] });
  });

  it('opens a lot even where its own list can’t be written', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    mkdirSync(join(at.root, 'config', 'lots.json'), { recursive: true });
    const lot = await newLot(desk, 'Ridge');
    answered(await desk.ask('read-lot', {}, { lot }));
    expect(desk.recents.list()).toEqual([]);
  });

  it('tells progress with the asking’s own id, and stops an asking by that id', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const events: WindowEvent[] = [];
    const lot = await newLot(desk, 'Ridge');
    const papers = await Promise.all(
      ['a', 'b', 'c'].map(async (name) => {
        const path = await writePdf(join(at.root, `${name}.pdf`), [name, 'two', 'three']);
        return { files: [desk.take(path, `${name}.pdf`, 1).ticket], kind: 'deed' };
      }),
    );
    desk.on((event) => {
      events.push(event);
      if (event.event === 'progress') desk.stop('keeping-1');
    });
    const reply = await desk.ask('keep', { papers }, { lot, id: 'keeping-1' });
    expect(reply).toMatchObject({ ok: false, error: { code: 'stopped' } });
    expect(events[0]).toMatchObject({ event: 'progress', told: { request: 'keep', id: 'keeping-1' } });
    desk.stop('keeping-1');
    desk.stop('never asked');
  });

  it('answers what is no request, no act, a strange asking or a strange argument with a sentence', async () => {
    using at = scratch();
    await using desk = windowDeskIn(at.root);
    const replies = [
      await desk.ask('toString', {}, {}),
      await desk.ask('read-lot', {}, { lot: 7 }),
      await desk.ask('read-lot', {}, { lot: 'x', folder: '/etc' }),
      await desk.ask('new-lot', { folder: '/etc', title: 'x' }, {}),
      await desk.ask('open-lot', null, {}),
      await desk.act('constructor', {}),
      await desk.act('make-folder', { title: '' }),
      await desk.act('save', { ticket: '/etc/passwd' }),
    ];
    for (const reply of replies) {
      expect(reply).toMatchObject({ ok: false, error: { code: 'wrong use' } });
    }
  });

  it('saves a copy where the person chooses and leaves nothing behind where it can’t', async () => {
    using at = scratch();
    const chosen = [join(at.root, 'copy.pdf'), undefined, join(at.root, 'no such folder', 'copy.pdf')];
    const shown: string[] = [];
    await using desk = windowDeskIn(at.root, {
      dialogs: {
        chooseFolder: async () => undefined,
        saveAs: async () => chosen.shift(),
        showFile: (path) => void shown.push(path),
      },
    });
    const path = await writePdf(join(at.root, 'packet.pdf'), ['Packet']);
    const { ticket } = desk.take(path, 'packet.pdf', 1);
    expect(answered(await desk.act('save', { ticket }))).toMatchObject({ saved: true });
    expect(readFileSync(join(at.root, 'copy.pdf')).equals(readFileSync(path))).toBe(true);
    expect(answered(await desk.act('save', { ticket }))).toEqual({ saved: false, place: '' });
    expect(await desk.act('save', { ticket })).toMatchObject({ ok: false, error: { code: 'disk' } });
    expect(answered(await desk.act('show-file', { ticket }))).toEqual({ shown: true });
    expect(answered(await desk.act('choose-lot', {}))).toEqual({});
    expect(shown).toEqual([path]);
    rmSync(path);
    expect(await desk.act('save', { ticket: 't-00000000-0000-0000-0000-000000000000' })).toMatchObject({
      error: { code: 'not found' },
    });
  });
});
