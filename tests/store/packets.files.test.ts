import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { PacketPlan, PlanTab } from '../../core/packet/plan-model.ts';
import type { FinishedFile, Lot } from '../../core/store/index.ts';
import { keepPermit, newFolder, newLot, page, sha256, told } from './lot-in-folder.ts';

function tab(edition: string, more: Partial<PlanTab> = {}): PlanTab {
  const about = {
    tab: 1,
    kind: 'septic-permit',
    title: 'Septic permit',
    issuedBy: '',
    number: 'SP-2026-117',
    dated: '',
  };
  return { ...about, edition, goodThrough: '', pages: 1, copies: 1, place: 'inside', findings: [], ...more };
}

function plan(tabs: readonly PlanTab[], rendition = ''): PacketPlan {
  const basis = { on: 'common practice' } as const;
  const flags = { cover: true, index: true, dividers: false, bookmarks: true, stamps: true, sealedCopy: false };
  const sheetPage = { rendition, facts: page(0, 'private words of the page'), turn: 0 } as const;
  return {
    code: 'PERMIT/APPLY',
    title: 'Permit application',
    errand: 'permit-apply',
    office: 'plan-review',
    recipient: 'Plan review',
    day: '2026-04-14',
    delivery: { way: 'counter', sets: 2, files: 'one file', untouched: false, ...flags, basis },
    draft: false,
    tabs,
    files: [
      {
        of: 'assembled',
        sort: 'packet',
        name: 'packet.pdf',
        title: 'Packet',
        sheets: [
          { of: 'paper', tab: 1, title: 'Septic permit', edition: 'e', page: sheetPage, stamp: { none: 'no room' } },
        ],
        bookmarks: [],
        labels: [],
        estimatedBytes: 10,
      },
    ],
    findings: [],
    notes: [],
  };
}

function finished(lot: Lot, name: string, text: string): FinishedFile {
  const path = lot.temporaryPath();
  writeFileSync(path, text);
  return { name, sha256: sha256(text), bytes: Buffer.byteLength(text), path };
}

test('a packet’s files move into a folder that reads by itself, and plan, practice and override are kept', async () => {
  const lot = newLot();
  const { edition } = await keepPermit(lot);
  const missing = tab('e-other', { tab: 2, place: 'missing', edition: undefined });
  const override = { reason: 'the clerk waits for it', day: '2026-04-14' } as const;
  const file = finished(lot, 'Permit application.pdf', 'the packet');
  const order = { plan: plan([tab(edition), missing]), practiceSha: lot.practiceSha(), override };
  const kept = await lot.keepPacket({ ...order, files: [file] });
  expect(kept).toMatchObject({
    code: 'PERMIT/APPLY',
    errand: 'permit-apply',
    recipient: 'Plan review',
    practiceSha: lot.practiceSha(),
    override,
    folder: join(lot.folder, 'packets', '2026-04-14 PERMIT-APPLY'),
    files: [{ name: 'Permit application.pdf', sha256: file.sha256, bytes: 10 }],
    editions: [edition],
  });
  expect(readFileSync(join(kept.folder, 'Permit application.pdf'), 'utf8')).toBe('the packet');
  expect(existsSync(file.path)).toBe(false);
  const again = await lot.keepPacket({ ...order, files: [finished(lot, 'a.pdf', 'a')] });
  expect(again.folder).toBe(join(lot.folder, 'packets', '2026-04-14 PERMIT-APPLY 2'));
  expect(lot.packets().map((packet) => packet.id)).toEqual([again.id, kept.id]);
  expect(kept).toEqual({ ...lot.packet(kept.id), act: expect.any(Number) });
  expect(await lot.verify()).toMatchObject({ packetFiles: 2, problems: [] });
});

test('the kept plan is the plan, but for the text of its pages', async () => {
  const lot = newLot();
  const { edition, files } = await keepPermit(lot);
  const given = plan([tab(edition)], files.rendition);
  const kept = await lot.keepPacket({ plan: given, practiceSha: lot.practiceSha(), files: [] });
  const json = JSON.stringify(given).replace('private words of the page', '');
  expect(lot.packetPlan(kept.id)).toEqual(JSON.parse(json));
});

test('a file that was cut short since it was finished, or is named like a path, refuses the packet and keeps nothing', async () => {
  const lot = newLot();
  const order = { plan: plan([]), practiceSha: lot.practiceSha() };
  const changed = finished(lot, 'a.pdf', 'finished');
  writeFileSync(changed.path, 'fini');
  await expect(lot.keepPacket({ ...order, files: [changed] })).rejects.toMatchObject(
    told('packet refused', /"a.pdf" changed/),
  );
  for (const name of ['../a.pdf', 'a/b.pdf', '..', '', 'a:b.pdf']) {
    await expect(lot.keepPacket({ ...order, files: [finished(lot, name, 'x')] })).rejects.toMatchObject({
      code: 'internal',
    });
  }
  const twins = [finished(lot, 'a.pdf', '1'), finished(lot, 'A.PDF', '2')];
  await expect(lot.keepPacket({ ...order, files: twins })).rejects.toMatchObject(told('internal', /Two files/));
  const gone = finished(lot, 'gone.pdf', 'x');
  rmSync(gone.path);
  await expect(lot.keepPacket({ ...order, files: [gone] })).rejects.toMatchObject({ code: 'not found' });
  expect(readdirSync(join(lot.folder, 'packets'))).toEqual([]);
  expect(lot.packets()).toEqual([]);
});

test('a packet by a practice the lot never had is refused by the foreign key, and its folder is cleared away', async () => {
  const lot = newLot();
  const order = { plan: plan([]), practiceSha: 'unknown', files: [finished(lot, 'a.pdf', 'x')] };
  await expect(lot.keepPacket(order)).rejects.toMatchObject({ code: 'conflict' });
  expect(readdirSync(join(lot.folder, 'packets'))).toEqual([]);
});

test('a handover takes files and editions from its packet, and says ever after who holds which edition', async () => {
  const lot = newLot();
  const { edition } = await keepPermit(lot);
  const other = await keepPermit(lot, { kind: 'deed', title: 'Deed' });
  const order = { plan: plan([tab(edition)]), practiceSha: lot.practiceSha() };
  const packet = await lot.keepPacket({ ...order, files: [finished(lot, 'a.pdf', 'the very bytes')] });
  const visit = lot.recordVisit({
    errand: 'permit-apply',
    day: '2026-04-14',
    state: 'left with them',
    packet: packet.id,
  });
  const given = {
    recipient: 'Plan review',
    office: 'plan-review',
    how: 'at the counter',
    day: '2026-04-14',
    receipt: 'R-55',
  } as const;
  const first = lot.handOver({ ...given, packet: packet.id, visit });
  const second = lot.handOver({
    recipient: 'Truss maker',
    how: 'e-mail',
    day: '2026-04-15',
    editions: [{ edition, copies: 2, surrendered: true }],
  });
  expect(lot.handovers({ packet: packet.id })).toEqual([
    {
      ...given,
      id: first,
      packet: packet.id,
      visit,
      files: [{ name: 'a.pdf', sha256: sha256('the very bytes'), bytes: 14 }],
      editions: [{ edition, copies: 1, surrendered: false }],
    },
  ]);
  expect(lot.handovers({ edition }).map((handover) => [handover.id, handover.recipient])).toEqual([
    [second, 'Truss maker'],
    [first, 'Plan review'],
  ]);
  expect(lot.handovers({ edition: other.edition })).toEqual([]);
  expect(() => lot.handOver(given)).toThrow(expect.objectContaining(told('wrong use', /what was given away/)));
  expect(lot.handovers()).toHaveLength(2);
});

test('a visit goes from planned to sent back with numbered comments, answered one by one', () => {
  const lot = newLot();
  const visit = lot.recordVisit({ errand: 'permit-apply', day: '2026-04-14', state: 'planned' });
  lot.recordVisit({
    id: visit,
    errand: 'permit-apply',
    day: '2026-04-14',
    state: 'sent back',
    outcome: 'partial',
    note: 'two comments',
  });
  const first = lot.addComment({ visit, number: '1', text: 'Show the setbacks.' });
  const second = lot.addComment({ visit, number: '2a', text: 'Name the wind zone.' });
  lot.answerComment(second, { text: 'On sheet A2.', day: '2026-04-20' });
  expect(lot.comments(visit)).toEqual([
    { id: first, visit, number: '1', text: 'Show the setbacks.' },
    { id: second, visit, number: '2a', text: 'Name the wind zone.', answer: 'On sheet A2.', answered: '2026-04-20' },
  ]);
  expect(lot.view().visits).toEqual([
    {
      id: visit,
      errand: 'permit-apply',
      day: '2026-04-14',
      state: 'sent back',
      outcome: 'partial',
      note: 'two comments',
      said: [
        { number: '1', text: 'Show the setbacks.' },
        { number: '2a', text: 'Name the wind zone.', answered: '2026-04-20' },
      ],
    },
  ]);
  expect(() => lot.addComment({ visit: 'v-none', number: '1', text: 'x' })).toThrow(
    expect.objectContaining({ code: 'not found' }),
  );
  expect(() => lot.answerComment(999, { text: 'x', day: '2026-04-20' })).toThrow(
    expect.objectContaining({ code: 'not found' }),
  );
});

test('records come back by day, with the photo they point to', async () => {
  const lot = newLot();
  const path = join(newFolder(), 'wall.jpg');
  writeFileSync(path, 'a photo');
  const { sha256: file } = await lot.takeInOriginal(path, 'wall.jpg');
  const receipt = lot.addRecord({ sort: 'receipt', day: '2026-04-20', title: 'Permit fee', amount: 24_000 });
  const photo = lot.addRecord({
    sort: 'photo',
    day: '2026-04-12',
    title: 'North wall',
    place: 'kitchen',
    trade: 'plumbing',
    file,
  });
  expect(lot.records()).toEqual([
    {
      id: photo,
      sort: 'photo',
      day: '2026-04-12',
      title: 'North wall',
      place: 'kitchen',
      trade: 'plumbing',
      file,
      fileName: 'wall.jpg',
      filePath: lot.originalPath(file),
    },
    { id: receipt, sort: 'receipt', day: '2026-04-20', title: 'Permit fee', amount: 24_000 },
  ]);
  expect(lot.records({ sort: 'receipt' })).toHaveLength(1);
  expect(() => lot.addRecord({ sort: 'photo', day: '2026-04-12', title: 'x', file: 'none' })).toThrow(
    expect.objectContaining({ code: 'not found' }),
  );
});
