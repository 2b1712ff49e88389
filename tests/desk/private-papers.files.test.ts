import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

/** What a first-timer keeps beside the rest: identity, money, and a paper nobody has a rule for. */
const secret = 'Account 55-0199-2231';

describe('a private paper', () => {
  let small: SmallLot;
  beforeAll(async () => {
    small = await openSmallLot();
    const { desk } = small;
    const paper = async (name: string, said: object) => ({ files: [await small.pdf(name, [secret])], ...said });
    const papers = [
      await paper('id.pdf', { kind: 'owner-id' }),
      await paper('loan.pdf', { kind: 'loan-agreement' }),
      await paper('bank.pdf', { title: 'Bank statement' }),
      { files: [await small.pdf('deed.pdf', ['Warranty deed'])], kind: 'deed', issued: '2025-06-02' as const },
      { files: [await small.pdf('septic.pdf', ['Septic permit'])], kind: 'septic-permit', number: 'S-1' },
    ];
    expect((await desk.ask('keep', { papers }, small)).refused).toEqual([]);
    await desk.ask('answer', { question: 'lender', answer: 'yes' }, small);
  });
  afterAll(async () => {
    await small[Symbol.asyncDispose]();
  });

  it('enters no errand’s packet that does not ask for its kind, whatever the errand', async () => {
    const { practice } = await small.desk.ask('practice', {}, small);
    let asked = 0;
    for (const { id, needs } of Object.values(practice.errands)) {
      const plan = await small.desk.ask('plan', { errand: id }, small);
      const named = needs.flatMap(({ kinds }) => kinds);
      for (const { kind, edition, title } of plan.tabs) {
        if (edition === undefined) continue;
        expect(title).not.toBe('Bank statement');
        const hidden = practice.papers[kind]?.private === true;
        if (hidden) asked += 1;
        expect([id, kind, !hidden || named.includes(kind)]).toEqual([id, kind, true]);
      }
    }
    // It does reach those that ask: photo id at the loan's closing, the permit desk and the appraiser's.
    expect(asked).toBeGreaterThanOrEqual(3);
  });

  it('chosen by the owner is told before anything is assembled, and so is one no rule knows', async () => {
    const wanted = { papers: ['owner-id', 'Bank statement', 'deed'], recipient: 'Loan desk' };
    const plan = await small.desk.ask('plan', wanted, small);
    const said = plan.findings.filter(({ sort }) => sort === 'caution').map(({ say }) => say);
    expect(said).toEqual([
      expect.stringContaining('"Copy of photo id" is private.'),
      expect.stringContaining('No rule knows "Bank statement": it may be private.'),
    ]);
  });

  it('attached to a mail is named in its notes, and an open one is not', async () => {
    const wanted = { papers: ['owner-id', 'Bank statement', 'deed'], recipient: 'Loan desk' };
    const { packet } = await small.desk.ask('assemble', wanted, small);
    const { notes } = await small.desk.ask('mail-draft', { packet }, small);
    expect(notes).toEqual([
      expect.stringMatching(/^"Copy of photo id" is private\. It leaves with this mail/),
      expect.stringMatching(/^No rule knows "Bank statement": it may be private\. It leaves with this mail/),
    ]);
    const open = await small.desk.ask('assemble', { papers: ['deed'], recipient: 'Loan desk' }, small);
    expect((await small.desk.ask('mail-draft', { packet: open.packet }, small)).notes).toEqual([]);
  });

  it('stays out of the house record, its one PDF and its index’s text, and each is told by name', async () => {
    const folder = join(small.root, 'record');
    const made = await small.desk.ask('house-record', { folder: small.desk.tickets.offer(folder) }, small);
    expect(made.leftOut.map(({ title }) => title).toSorted((a, b) => a.localeCompare(b))).toEqual([
      'Bank statement',
      'Building loan agreement',
      'Copy of photo id',
    ]);
    const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    for (const entry of files) {
      expect(readFileSync(join(entry.parentPath, entry.name), 'latin1')).not.toContain(secret);
      expect(entry.name).not.toMatch(/bank|photo-id|loan/i);
    }
    expect(files.length).toBeGreaterThan(3);
  });
});
