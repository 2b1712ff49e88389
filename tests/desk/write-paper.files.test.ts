import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { sheetsNamed } from '../../core/desk/features/written/response.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

type Wanted = Parameters<SmallLot['desk']['ask']>[1] & { readonly sort: string };

interface Read {
  readonly name: string;
  readonly pages: readonly string[];
  readonly text: string;
  readonly bytes: Buffer;
  readonly notes: readonly string[];
}

/** Writes a paper and reads its words with a reader of other hands. */
async function written(small: SmallLot, wanted: Wanted, on?: '2026-09-01'): Promise<Read> {
  const asking = on === undefined ? small : { ...small, on };
  const made = await small.desk.askUntyped('write-paper', wanted, asking);
  const bytes = readFileSync(small.desk.tickets.look(made.ticket).path);
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  const pages = [...document.pages()].map((page) => page.getText().replace(/\s+/g, ' '));
  document.destroy();
  library.destroy();
  expect(pages).toHaveLength(made.pages);
  return { name: made.name, pages, text: pages.join(' '), bytes, notes: made.notes };
}

describe('the hold sheet', () => {
  it('says in large letters what is recorded and what is not, and never that it is safe to go on', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('answer', { question: 'foundation', answer: 'slab' }, small);
    const shut = await written(small, { sort: 'hold-sheet', hold: 'pour' });
    expect(shut.pages).toHaveLength(1);
    expect(shut.text).toContain('PRIVATE: DO NOT HAND IN');
    expect(shut.text).toContain('Stop here');
    expect(shut.text).toContain('Not recorded as settled');
    expect(shut.notes).toHaveLength(1);
    const fail = { errand: 'footing-inspect', day: '2026-04-10', state: 'settled', outcome: 'fail' } as const;
    await desk.ask('visit', fail, small);
    expect((await written(small, { sort: 'hold-sheet', hold: 'pour' })).text).toContain('not passed on 10 Apr 2026');
    await desk.ask('visit', { ...fail, day: '2026-04-13', outcome: 'pass' }, small);
    const open = await written(small, { sort: 'hold-sheet', hold: 'pour' });
    expect(open.text).toContain('passed inspection recorded on 13 Apr 2026 by');
    expect(open.text).not.toContain('Stop here');
    for (const { text } of [shut, open]) {
      expect(text).toContain('your county and licensed people decide');
      expect(text).not.toMatch(/\bsafe\b|you may (pour|cover)|approved/i);
    }
  });

  it('without a hold, or for one that doesn’t apply, says which there are', async () => {
    await using small = await openSmallLot();
    const ask = (hold?: string) => written(small, { sort: 'hold-sheet', hold });
    await expect(ask()).rejects.toMatchObject({ code: 'wrong use', next: expect.stringContaining('pour') });
    await small.desk.ask('answer', { question: 'foundation', answer: 'crawl' }, small);
    await expect(ask('pour-slab')).rejects.toMatchObject({ code: 'wrong use' });
    await expect(ask('pore')).rejects.toMatchObject({ code: 'wrong use', next: expect.stringContaining('pour') });
  });
});

describe('sheets of the owner’s own', () => {
  it('an inspection-day sheet holds kit, what stays open, papers, and a box for every outcome', async () => {
    await using small = await openSmallLot();
    await small.desk.ask('visit', { errand: 'footing-inspect', day: '2026-04-20', state: 'planned' }, small);
    const { text } = await written(small, { sort: 'inspection-day', errand: 'footing-inspect' });
    expect(text).toContain('PRIVATE');
    expect(text).toContain('Mon 20 Apr 2026');
    expect(text).toContain('Before you pour the footings');
    for (const word of [
      'Papers they look at',
      'with corrections',
      'no access',
      'letter in lieu',
      'Corrections, by number',
    ]) {
      expect(text).toContain(word);
    }
  });

  it('a phone list asks the practice’s questions, office by office, and leaves the owner out', async () => {
    await using small = await openSmallLot();
    const one = await written(small, { sort: 'phone-list', errand: 'septic-apply' });
    expect(one.text).toContain('On which day does the permit lapse?');
    const all = await written(small, { sort: 'phone-list' });
    expect(all.text).toContain('answer · who said it · day');
    expect(all.text).not.toContain('You, the owner');
  });
});

describe('letters and lists for others', () => {
  it('the log tells every inspection by day with what they said, and what is still to come', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask(
      'visit',
      {
        errand: 'footing-inspect',
        day: '2026-04-10',
        state: 'sent back',
        outcome: 'fail',
        comments: ['Rebar too high.'],
      },
      small,
    );
    await desk.ask('visit', { errand: 'footing-inspect', day: '2026-04-13', state: 'settled', outcome: 'pass' }, small);
    const { text } = await written(small, { sort: 'inspection-log' });
    expect(text.indexOf('Rebar too high.')).toBeLessThan(text.indexOf('13 Apr 2026'));
    expect(text).toContain('Still to come');
    expect(text).not.toContain('PRIVATE');
  });

  it('the list of firms tells licences and certificates with their days, lapsed ones as lapsed', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('engage', { firm: 'Wrenhollow Electric', trade: 'electrical', from: '2026-04-01' }, small);
    const files = [await small.pdf('l.pdf', ['Licence'])];
    const licence = { kind: 'contractor-licence', subject: 'Wrenhollow Electric', number: 'EL-4471' };
    await desk.ask('keep', { papers: [{ ...licence, files, goodThrough: '2026-06-30' }] }, small);
    expect((await written(small, { sort: 'firms' })).text).toContain('EL-4471: good through 30 Jun 2026');
    const later = await written(small, { sort: 'firms' }, '2026-09-01');
    expect(later.text).toContain('EL-4471: lapsed after 30 Jun 2026');
    expect(later.text).toContain('not in hand');
  });

  it('a request for more time names number, last good day and the day to ask by, and swears to nothing', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
    const ask = () =>
      written(small, { sort: 'extension-request', paper: 'septic-permit', words: 'The rains held us up.' });
    await expect(ask()).rejects.toMatchObject({ code: 'not found' });
    const files = [await small.pdf('s.pdf', ['Septic permit'])];
    await desk.ask('keep', { papers: [{ files, kind: 'septic-permit', issued: '2025-03-03', number: 'EH-1' }] }, small);
    const early = await ask();
    expect(early.notes.join(' ')).toContain('only after');
    await desk.ask('event', { event: 'construction-begun', day: '2026-04-01' }, small);
    const letter = await ask();
    for (const word of ['No. EH-1', '3 Sep 2026', 'asked for by 3 Sep 2026', '90 days', 'The rains held us up.']) {
      expect(letter.text).toContain(word);
    }
    expect(letter.text).not.toMatch(/swear|penalty|perjury|affirm|certif|guarant|hereby/i);
    await desk.ask('keep', { papers: [{ files: [await small.pdf('d.pdf', ['Deed'])], kind: 'deed' }] }, small);
    await expect(written(small, { sort: 'extension-request', paper: 'deed' })).rejects.toMatchObject({
      code: 'wrong use',
      next: expect.stringContaining('clerk-said'),
    });
  });

  it('a transmittal names what is enclosed, the files and their SHA-256; the errand sheet is not among them', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const files = [await small.pdf('d.pdf', ['Deed'])];
    await desk.ask('keep', { papers: [{ files, kind: 'deed', number: '2024-1' }] }, small);
    const made = await desk.ask('assemble', { papers: ['deed'], title: 'For the bank', recipient: 'Bank' }, small);
    const { text } = await written(small, { sort: 'transmittal', packet: made.packet });
    const packet = made.files.find(({ sort }) => sort === 'packet');
    expect(text).toContain(packet?.sha256.slice(0, 16));
    expect(text).toContain('2024-1');
    expect(text).not.toContain(made.files.find(({ sort }) => sort === 'errand sheet')?.name ?? 'none');
    expect(text).toContain('Received by');
  });

  it('a response answers comments by number with sheet and evidence, a DRAFT while one is open', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const ask = () => written(small, { sort: 'response', errand: 'permit-apply' });
    await expect(ask()).rejects.toMatchObject({ code: 'not found' });
    const files = [await small.pdf('survey.pdf', ['Survey'])];
    await desk.ask('keep', { papers: [{ files, kind: 'boundary-survey', number: 'FB-77-12' }] }, small);
    const comments = ['Show the setback.', 'Which stair?'];
    await desk.ask('visit', { errand: 'permit-apply', day: '2026-04-10', state: 'sent back', comments }, small);
    const draft = await ask();
    expect(draft.text).toContain('not answered yet');
    expect(draft.text).toContain('DRAFT');
    const open = (await desk.ask('errand', { errand: 'permit-apply' }, small)).comments;
    const answers = ['Drawn on sheet C-1, see survey FB-77-12.', 'Sheets A1 and A-2.1 show it.'];
    for (const { comment, number } of open) {
      await desk.ask('answer-comment', { comment, text: answers[Number(number) - 1] ?? '' }, small);
    }
    const done = await ask();
    expect(done.text).not.toContain('DRAFT');
    expect(done.text).toMatch(/C-1.*FB-77-12/);
    expect(done.notes).toEqual([]);
  });

  // Sheet numbers by discipline letter and number: common practice, no source.
  it.each([
    ['see sheet A-2', 'A-2'],
    ['Sheets S1 and A-2.1', 'S1 and A-2.1'],
    ['on sheet C1, sheet C2', 'C1, C2'],
    ['the cheat sheet is fine', ''],
  ])('sheets named in "%s": "%s"', (answer, sheets) => {
    expect(sheetsNamed(answer)).toBe(sheets);
  });
});

describe('photo sheets', () => {
  it('show photos of the days and trades asked for, two or four to a page, with their captions', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const red = join(small.root, 'red.jpg');
    await sharp({ create: { width: 400, height: 300, channels: 3, background: '#d02020' } })
      .jpeg()
      .toFile(red);
    const file = desk.tickets.offer(red);
    const taken = [
      ['framing', '2026-04-01'],
      ['framing', '2026-04-02'],
      ['plumbing', '2026-04-03'],
    ] as const;
    for (const [n, [trade, day]] of taken.entries()) {
      const photo = {
        sort: 'photo',
        title: `North wall ${n}`,
        place: 'bath',
        trade,
        day,
        file,
      } as const;
      await desk.ask('record', photo, small);
    }
    const four = await written(small, { sort: 'photo-sheet' });
    expect(four.pages).toHaveLength(1);
    expect(four.text).toContain('bath · plumbing · 3 Apr 2026');
    const two = await written(small, { sort: 'photo-sheet', perSheet: '2', trade: 'framing' });
    expect(two.text).toContain('North wall 1');
    expect(two.text).not.toContain('North wall 2');
    expect(await redPart(four.bytes)).toBeGreaterThan(0.05);
    expect((await written(small, { sort: 'photo-sheet' })).bytes.equals(four.bytes)).toBe(true);
    await expect(written(small, { sort: 'photo-sheet', trade: 'roofing' })).rejects.toMatchObject({
      code: 'not found',
    });
  });

  it('hold pictures in the size of print, so that two dozen photos can be sent by mail', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const large = join(small.root, 'large.jpg');
    const noise = { type: 'gaussian', mean: 128, sigma: 40 } as const;
    await sharp({ create: { width: 4000, height: 3000, channels: 3, background: '#808080', noise } })
      .blur(2.2)
      .jpeg({ quality: 92 })
      .toFile(large);
    const file = desk.tickets.offer(large);
    const photo = { sort: 'photo', place: 'bath', day: '2026-04-01', file } as const;
    for (const title of ['North', 'East', 'South', 'West']) await desk.ask('record', { ...photo, title }, small);
    const [four, two] = [
      await written(small, { sort: 'photo-sheet' }),
      await written(small, { sort: 'photo-sheet', perSheet: '2' }),
    ];
    expect(statSync(large).size).toBeGreaterThan(1_500_000);
    // Two dozen come to six times that: a few MB.
    expect(four.bytes.length * 6).toBeLessThan(5_000_000);
    expect(two.bytes.length * 6).toBeLessThan(5_000_000);
    expect(two.pages).toHaveLength(2);
  });
});

/** How much of the first page is red. */
async function redPart(bytes: Buffer): Promise<number> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  const { data, width, height } = await document.getPage(0).render({ scale: 0.5, render: 'bitmap' });
  let red = 0;
  // Red, green, blue, alpha.
  for (let at = 0; at < data.length; at += 4) {
    if ((data[at] ?? 0) > 180 && (data[at + 1] ?? 0) < 80 && (data[at + 2] ?? 0) < 80) red += 1;
  }
  document.destroy();
  library.destroy();
  return red / (width * height);
}
