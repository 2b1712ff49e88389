import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { openSmallLot, smallDay } from './small-lot.ts';

function filesUnder(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}

describe('the desk', () => {
  it('asks ten questions first, each with why and where to find the answer', async () => {
    await using small = await openSmallLot();
    const { questions } = await small.desk.ask('read-lot', {}, small);
    expect(questions.filter(({ first }) => first)).toHaveLength(10);
    for (const { why, where, ask } of questions) expect([ask, why, where].every((text) => text.length > 8)).toBe(true);
  });

  it('keeps a paper, finds it by a word on its page, and takes it back on undo', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const file = await small.pdf('deed.pdf', ['Warranty deed, book 212 page 40', 'Second page']);
    const { kept } = await desk.ask('keep', { papers: [{ files: [file], kind: 'deed', issued: '2025-06-02' }] }, small);
    expect(kept).toMatchObject([{ title: 'Deed', pages: 2, already: false }]);
    const { found } = await desk.ask('find', { text: 'warranty' }, small);
    expect(found[0]).toMatchObject({ title: 'Deed', page: 1 });
    await desk.ask('undo', {}, small);
    expect((await desk.ask('papers', {}, small)).papers).toEqual([]);
    expect((await desk.ask('find', { text: 'warranty' }, small)).found).toEqual([]);
  });

  it('refuses a file that is no paper with a sentence, keeps the others, and leaves nothing behind', async () => {
    await using small = await openSmallLot();
    const { desk, root, folder } = small;
    const page = join(root, 'letter.pdf');
    writeFileSync(page, '<html><body>Log in to see your document</body></html>');
    const good = await small.pdf('deed.pdf', ['Deed']);
    const answer = await desk.ask(
      'keep',
      {
        papers: [
          { files: [desk.tickets.offer(page)], kind: 'address-letter' },
          { files: [good], kind: 'deed' },
        ],
      },
      small,
    );
    expect(answer.kept.map(({ title }) => title)).toEqual(['Deed']);
    expect(answer.refused).toMatchObject([{ file: 'letter.pdf', error: { code: 'file refused' } }]);
    expect(filesUnder(join(folder, 'originals'))).toHaveLength(1);
    expect((await desk.ask('verify', {}, small)).problems).toEqual([]);
  });

  it('tells that the same bytes are kept already instead of keeping them twice', async () => {
    await using small = await openSmallLot();
    const papers = [{ files: [await small.pdf('deed.pdf', ['Deed'])], kind: 'deed' }];
    await small.desk.ask('keep', { papers }, small);
    const again = await small.desk.ask('keep', { papers }, small);
    expect(again.kept).toMatchObject([{ already: true }]);
    const rows = (await small.desk.ask('papers', {}, small)).papers;
    expect(rows.map(({ editions }) => editions.length)).toEqual([1]);
  });

  it('amends one rule on the clerk’s word, and every later finding says whose word it is', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const before = await desk.ask('errand', { errand: 'permit-apply' }, small);
    expect(before.needs.find(({ need }) => need === 'plans')?.copies).toBe(2);
    const rule = 'errands.permit-apply.needs.plans.copies';
    await desk.ask('clerk-said', { rule, value: 3, who: 'R. Amsel', day: '2026-04-02' }, small);
    const after = await desk.ask('errand', { errand: 'permit-apply' }, small);
    expect(after.needs.find(({ need }) => need === 'plans')).toMatchObject({
      copies: 3,
      basis: { on: 'the office told us', who: 'R. Amsel', day: '2026-04-02' },
    });
    await desk.ask('undo', {}, small);
    const undone = await desk.ask('errand', { errand: 'permit-apply' }, small);
    expect(undone.needs.find(({ need }) => need === 'plans')?.copies).toBe(2);
  });

  it('assembles a packet that is missing papers as a draft, with an out card for each', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('keep', { papers: [{ files: [await small.pdf('deed.pdf', ['Deed'])], kind: 'deed' }] }, small);
    const answer = await desk.ask('assemble', { errand: 'permit-apply' }, small);
    expect(answer.draft).toBe(true);
    expect(answer.tabs.filter(({ place }) => place === 'missing').length).toBeGreaterThan(3);
    expect(answer.findings.some(({ sort }) => sort === 'missing')).toBe(true);
    for (const { ticket, bytes } of answer.files)
      expect(readFileSync(desk.tickets.look(ticket).path)).toHaveLength(bytes);
    const clean = await desk.ask(
      'assemble',
      { errand: 'permit-apply', override: 'The clerk takes the rest on Friday.' },
      small,
    );
    expect(clean.draft).toBe(false);
    expect(clean.tabs.filter(({ place }) => place === 'missing')).toEqual([]);
  });

  it('assembles papers of the owner’s own choosing in the order chosen', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const papers = [
      { files: [await small.pdf('a.pdf', ['Deed'])], kind: 'deed' },
      { files: [await small.pdf('b.pdf', ['Survey', 'Survey 2'])], kind: 'boundary-survey' },
    ];
    await desk.ask('keep', { papers }, small);
    const answer = await desk.ask(
      'assemble',
      { papers: ['boundary-survey', 'deed'], title: 'For the bank', recipient: 'Loan desk' },
      small,
    );
    expect(answer.tabs.map(({ kind }) => kind)).toEqual(['boundary-survey', 'deed']);
    expect(answer.draft).toBe(false);
  });

  it('names the paper whose kept byte changed, and refuses to assemble with it', async () => {
    await using small = await openSmallLot();
    const { desk, folder } = small;
    const papers = [{ files: [await small.pdf('deed.pdf', ['Deed'])], kind: 'deed' }];
    for (const room of ['renditions', 'originals']) {
      await desk.ask('keep', { papers }, small);
      const [path = ''] = filesUnder(join(folder, room));
      const whole = readFileSync(path);
      const flipped = Buffer.from(whole);
      flipped[flipped.length >> 1] = (flipped[flipped.length >> 1] ?? 0) ^ 1;
      writeFileSync(path, flipped);
      const { problems } = await desk.ask('verify', {}, small);
      expect(problems.map((problem) => problem.papers)).toEqual([['Deed']]);
      await expect(desk.ask('assemble', { papers: ['deed'] }, small)).rejects.toMatchObject({ code: 'paper damaged' });
      writeFileSync(path, whole);
      await expect(desk.ask('assemble', { papers: ['deed'] }, small)).resolves.toMatchObject({ draft: false });
    }
  });

  it('tells a second program politely that the lot is in use', async () => {
    await using small = await openSmallLot();
    const other = openDesk({ program: 'another window', today: () => smallDay });
    const folder = other.tickets.offer(small.folder);
    await expect(other.ask('open-lot', { folder })).rejects.toMatchObject({ code: 'lot busy' });
    await other.close();
  });

  it('stops when asked and leaves nothing half done', async () => {
    await using small = await openSmallLot();
    const { desk, folder } = small;
    const papers = [{ files: [await small.pdf('deed.pdf', ['Deed'])], kind: 'deed' }];
    await desk.ask('keep', { papers }, small);
    const stop = new AbortController();
    const off = desk.on('progress', () => stop.abort());
    const asked = desk.ask('assemble', { papers: ['deed'] }, { ...small, signal: stop.signal });
    await expect(asked).rejects.toMatchObject({ code: 'stopped' });
    off();
    expect(filesUnder(join(folder, 'packets'))).toEqual([]);
    expect((await desk.ask('verify', {}, small)).problems).toEqual([]);
  });

  it('ends every wrong use in a sentence, not in a crash', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const wrong: [Parameters<typeof desk.askUntyped>[0], unknown, string][] = [
      ['answer', { question: 'sewage', answer: 'purple' }, 'wrong use'],
      ['answer', { question: 'no-such', answer: 'x' }, 'wrong use'],
      ['event', { event: 'construction-begun', day: '2026-02-30' }, 'wrong use'],
      ['keep', { papers: [{ files: ['/etc/passwd'], kind: 'deed' }] }, 'wrong use'],
      ['errand', { errand: 'permit-aply' }, 'not found'],
      ['hand-over', { packet: 'none', to: 'x', how: 'y' }, 'not found'],
      ['standing', { edition: 'septic-permit', office: 'plan-review', word: 'approved' }, 'not found'],
      ['clerk-said', { rule: 'errands.nowhere.fee', value: '1 usd', who: 'x' }, 'bad practice'],
      ['assemble', {}, 'wrong use'],
    ];
    for (const [name, argument, code] of wrong) {
      await expect(desk.askUntyped(name, argument, small), name).rejects.toMatchObject({ code });
    }
    await expect(desk.askUntyped('way', {})).rejects.toMatchObject({ code: 'not found' });
  });
});
