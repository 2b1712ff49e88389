import { readFileSync } from 'node:fs';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

/** A septic permit whose printed day has passed, and the extension that makes it good again. */
async function keepPermitAndExtension({ desk, pdf, lot }: SmallLot): Promise<void> {
  const permit = [await pdf('permit.pdf', ['Septic permit'])];
  const extension = [await pdf('more.pdf', ['Extension of the septic permit'])];
  await desk.ask(
    'keep',
    { papers: [{ files: permit, kind: 'septic-permit', number: 'EH-24', issued: '2024-10-01' }] },
    { lot },
  );
  const links = [{ word: 'extends', to: 'EH-24' } as const];
  await desk.ask(
    'keep',
    { papers: [{ files: extension, kind: 'septic-extension', issued: '2026-03-20', links }] },
    { lot },
  );
  await desk.ask('event', { event: 'construction-begun', day: '2026-03-02' }, { lot });
}

async function pagesOf(small: SmallLot, ticket: string): Promise<number> {
  const bytes = readFileSync(small.desk.tickets.look(ticket).path);
  return (await PDFDocument.load(new Uint8Array(bytes), { updateMetadata: false })).getPageCount();
}

describe('what goes into a packet', () => {
  it('the extension that makes a permit good goes in with it, page and proof', async () => {
    await using small = await openSmallLot();
    await keepPermitAndExtension(small);
    await small.desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
    const answer = await small.desk.ask('assemble', { errand: 'permit-apply' }, small);
    const tab = answer.tabs.find(({ kind }) => kind === 'septic-permit');
    expect(tab).toMatchObject({ pages: 2, place: 'inside', title: 'Septic permit, with its extension' });
    expect(tab?.riders).toHaveLength(1);
    const file = answer.files.find(({ sort }) => sort === 'packet');
    expect(await pagesOf(small, file?.ticket ?? '')).toBe(file?.pages);
  });

  it('a chosen paper that lapsed is told, and one alone without its extension', async () => {
    await using small = await openSmallLot();
    await keepPermitAndExtension(small);
    const alone = await small.desk.ask('plan', { papers: ['septic-permit'] }, small);
    expect(alone.findings).toMatchObject([{ sort: 'missing', weight: 'questioned' }]);
    const both = await small.desk.ask('plan', { papers: ['septic-permit', 'septic-extension'] }, small);
    expect(both.findings.map(({ sort, weight }) => [sort, weight])).not.toContainEqual(['missing', 'questioned']);
  });

  it('a paper whose file was purged is missing there, not an empty tab', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await keepPermitAndExtension(small);
    await desk.ask('purge', { edition: 'EH-24', reason: 'Not ours.', sure: true }, small);
    const answer = await desk.ask('assemble', { papers: ['septic-permit', 'septic-extension'] }, small);
    expect(answer.tabs.map(({ place, pages }) => [place, pages])).toEqual([
      ['missing', 0],
      ['inside', 1],
    ]);
    expect(answer.draft).toBe(true);
    expect(answer.findings[0]).toMatchObject({ sort: 'unreadable' });
  });
});
