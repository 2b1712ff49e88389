import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { extract } from 'letterparser';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

function hashOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

async function wordsIn(bytes: Uint8Array): Promise<string> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  const text = [...document.pages()].map((page) => page.getText()).join('\n');
  document.destroy();
  library.destroy();
  return text;
}

describe('files made for the owner', () => {
  it('an errand sheet alone says what the packet’s says, under a ticket that stays', async () => {
    await using small = await openSmallLot();
    const { desk, folder } = small;
    const sheet = await desk.ask('errand-sheet', { errand: 'permit-apply' }, small);
    const bytes = readFileSync(desk.tickets.look(sheet.ticket).path);
    expect(bytes).toHaveLength(sheet.bytes);
    expect((await PDFDocument.load(new Uint8Array(bytes), { updateMetadata: false })).getPageCount()).toBe(sheet.pages);
    const { files } = await desk.ask('assemble', { errand: 'permit-apply' }, small);
    const inPacket = files.find(({ sort }) => sort === 'errand sheet');
    expect(inPacket).toMatchObject({ name: sheet.name, pages: sheet.pages });
    const packed = readFileSync(desk.tickets.look(inPacket?.ticket ?? '').path);
    const words = await wordsIn(bytes);
    expect(words).toContain('PRIVATE');
    expect(words).toBe(await wordsIn(packed));
    expect(await desk.ask('errand-sheet', { errand: 'permit-apply' }, small)).toEqual(sheet);
    await desk.ask('close-lot', {}, small);
    expect(readdirSync(join(folder, 'working'))).toEqual([]);
  });

  // RFC 5322 and RFC 2045-2047, read by a reader that did not write it.
  it('a mail draft opens as unsent, lists what is attached, and carries the very bytes', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const files = [await small.pdf('deed.pdf', ['Deed'])];
    await desk.ask('keep', { papers: [{ files, kind: 'deed' }] }, small);
    await desk.ask('identity', { sort: 'owner', text: 'Hạnh Nguyễn Lindqvist' }, small);
    const made = await desk.ask(
      'assemble',
      { papers: ['deed'], title: 'Für die Bank: Papiere', recipient: 'Bank' },
      small,
    );
    const draft = await desk.ask('mail-draft', { packet: made.packet, to: 'loans@bank.example' }, small);
    const path = desk.tickets.look(draft.ticket).path;
    const raw = readFileSync(path, 'utf8');
    expect(draft).toMatchObject({ bytes: raw.length, tooLargeFor: undefined, notes: [] });
    expect(raw.split('\r\n\r\n')[0]).toMatch(/^X-Unsent: 1\r$/m);
    for (const line of raw.split('\r\n')) expect(line.length).toBeLessThanOrEqual(998);
    const mail = extract(raw);
    expect(mail.subject).toBe('Für die Bank: Papiere');
    expect(mail.to?.map(({ address }) => address)).toEqual(['loans@bank.example']);
    expect(mail.from).toBeUndefined();
    expect(mail.text).toContain('Owner: Hạnh Nguyễn Lindqvist');
    const packet = made.files.find(({ sort }) => sort === 'packet');
    expect(mail.text).toContain(packet?.sha256.slice(0, 12));
    expect(draft.attached).toEqual([packet?.name]);
    const [attached] = mail.attachments ?? [];
    expect(attached).toMatchObject({ filename: packet?.name, contentType: { type: 'application/pdf' } });
    expect(hashOf(attached?.body instanceof Uint8Array ? attached.body : new Uint8Array())).toBe(packet?.sha256);
    const again = await desk.ask('mail-draft', { packet: made.packet, to: 'loans@bank.example' }, small);
    expect(again).toEqual(draft);
    expect(readFileSync(path, 'utf8')).toBe(raw);
  });

  it('the private errand sheet never goes along, and a draft is told', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const made = await desk.ask('assemble', { errand: 'permit-apply' }, small);
    expect(made.files.map(({ sort }) => sort)).toContain('errand sheet');
    const draft = await desk.ask('mail-draft', { packet: made.title, words: 'Good morning,' }, small);
    const raw = readFileSync(desk.tickets.look(draft.ticket).path, 'utf8');
    expect(raw).not.toContain('PRIVATE');
    expect(draft.notes[0]).toContain('DRAFT');
    expect(extract(raw).text?.startsWith('Good morning,')).toBe(true);
    const wrong = desk.askUntyped('mail-draft', { packet: made.packet, to: 'a@b\r\nBcc: all@x.example' }, small);
    await expect(wrong).rejects.toMatchObject({ code: 'wrong use' });
  });

  it('files of a packet assembled earlier are listed with tickets that stay', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const made = await desk.ask('assemble', { errand: 'permit-apply' }, small);
    const listed = await desk.ask('packet-files', { packet: made.packet }, small);
    expect(listed).toMatchObject({ title: made.title, draft: true, errand: 'permit-apply', day: '2026-04-14' });
    expect(listed.files).toEqual(made.files);
    await expect(desk.ask('packet-files', { packet: 'k-none' }, small)).rejects.toMatchObject({ code: 'not found' });
  });
});

describe('a plan on its way to a window', () => {
  it('of a thousand pages stays under a megabyte, with a ticket for every rendition', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const pages = Array.from({ length: 50 }, (_, n) => `Sheet ${n + 1}`);
    // One file five times over in each of four papers: its pages are worked on once.
    const long = await small.pdf('long.pdf', pages);
    const kinds = ['deed', 'boundary-survey', 'plans', 'address-letter'];
    await desk.ask('keep', { papers: kinds.map((kind) => ({ files: Array(5).fill(long), kind })) }, small);
    const receipt = await small.pdf('receipt.pdf', ['School tax receipt']);
    await desk.ask('keep', { papers: [{ files: [receipt], kind: 'tax-receipt' }] }, small);
    const plan = await desk.ask('plan', { errand: 'permit-apply' }, small);
    const sheets = plan.files.flatMap((file) => (file.of === 'assembled' ? file.sheets : []));
    const own = sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.page] : []));
    expect(own.length).toBeGreaterThanOrEqual(1000);
    expect(JSON.stringify(plan).length).toBeLessThan(1_000_000);
    expect(own.every(({ facts }) => facts.text === '' && facts.clearStrips.length === 0)).toBe(true);
    expect(new Set(Object.keys(plan.tickets))).toEqual(new Set(own.map(({ rendition }) => rendition)));
    for (const ticket of Object.values(plan.tickets)) {
      expect(readFileSync(desk.tickets.look(ticket).path).subarray(0, 5).toString()).toBe('%PDF-');
    }
    expect((await desk.ask('plan', { errand: 'permit-apply' }, small)).tickets).toEqual(plan.tickets);
  });
});
