import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openSmallLot } from './small-lot.ts';

describe('one edition on its own screen', () => {
  it('shows pages by a ticket that stays the same, facts noted or not, and who holds copies', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const files = [await small.pdf('permit scan.pdf', ['Septic permit', 'Three bedrooms'])];
    const said = { kind: 'septic-permit', number: 'EH-24', issued: '2026-01-20', facts: { bedrooms: '3' } } as const;
    await desk.ask('keep', { papers: [{ files, ...said, marks: ['signed'] }] }, small);
    const paper = await desk.ask('pages', { edition: 'EH-24' }, small);
    expect(paper).toMatchObject({ title: 'Septic permit', number: 'EH-24', current: true, state: 'in hand' });
    expect(paper.pages.map(({ page, width, height, turn }) => [page, width, height, turn])).toEqual([
      [0, 612, 792, 0],
      [1, 612, 792, 0],
    ]);
    expect(paper.originals).toMatchObject([{ name: 'permit scan.pdf', sort: 'pdf' }]);
    expect(paper.facts.find(({ fact }) => fact === 'bedrooms')).toMatchObject({ words: '3' });
    expect(paper.facts.find(({ fact }) => fact === 'parcel')).toMatchObject({ words: '' });
    expect(paper.validityWords).toBe('good through 20 Jul 2027');
    expect(paper.clocks[0]?.words).toBe('18 months from issue: good through 20 Jul 2027');
    expect(paper.needFor.map(({ errand }) => errand)).toContain('permit-apply');
    const [first] = paper.pages;
    const bytes = readFileSync(desk.tickets.look(first?.ticket ?? '').path);
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    const again = await desk.ask('pages', { edition: 'EH-24' }, small);
    expect(again).toEqual(paper);
  });

  it('tells the other editions, what replaces it and what an office did with it', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const keep = async (revision: string, links: readonly { word: 'replaces'; to: string }[] = []) => {
      const files = [await small.pdf(`plans ${revision}.pdf`, [`Plans ${revision}`])];
      const paper = { files, kind: 'plans', number: `P-${revision}`, revision, links: [...links] };
      await desk.ask('keep', { papers: [paper] }, small);
    };
    await keep('A');
    await desk.ask('standing', { edition: 'P-A', office: 'plan-review', word: 'received', day: '2026-04-02' }, small);
    await keep('B', [{ word: 'replaces', to: 'P-A' }]);
    const old = await desk.ask('pages', { edition: 'P-A' }, small);
    expect(old).toMatchObject({ current: false, standings: [{ word: 'received', office: 'plan-review' }] });
    expect(old.links).toMatchObject([{ direction: 'from', word: 'replaces', number: 'P-B' }]);
    expect(old.editions.map(({ number, current }) => [number, current])).toEqual([
      ['P-A', false],
      ['P-B', true],
    ]);
  });

  // Fixed hole: an edition kept with its original alone read "in hand" after that original was purged.
  it('an edition whose file was removed for good is unreadable, one held on paper still is in hand', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const files = [await small.pdf('deed.pdf', ['Deed'])];
    await desk.ask('keep', { papers: [{ files, kind: 'deed' }] }, small);
    await desk.ask('purge', { edition: 'deed', reason: 'private', sure: true }, small);
    const gone = await desk.ask('pages', { edition: 'deed' }, small);
    expect(gone).toMatchObject({ readable: false, state: 'unreadable', pages: [], originals: [] });
  });
});

describe('the list of papers', () => {
  it('with wanted, holds what the way needs and nobody kept, with the errand that brings it', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
    expect((await desk.ask('papers', {}, small)).papers).toEqual([]);
    const wanted = (await desk.ask('papers', { wanted: true }, small)).papers;
    expect(new Set(wanted.map(({ row }) => row)).size).toBe(wanted.length);
    const permit = wanted.find(({ kind }) => kind === 'septic-permit');
    expect(permit).toMatchObject({ state: 'not asked for', broughtBy: { errand: 'septic-apply' }, sort: 'health' });
    expect(permit?.paper).toBeUndefined();
    expect(permit?.needFor).toContainEqual({
      errand: 'permit-apply',
      title: 'Apply for the building permit',
      open: true,
    });
    const flood = await desk.ask('papers', { wanted: true, kind: 'flood-determination' }, small);
    await desk.ask('answer', { question: 'flood_zone', answer: 'X' }, small);
    const dry = await desk.ask('papers', { wanted: true, kind: 'flood-determination' }, small);
    expect([flood.papers.length, dry.papers.length]).toEqual([1, 0]);
    expect(wanted.map(({ kind }) => kind)).not.toContain('zoning-letter');
    await desk.ask('visit', { errand: 'septic-apply', state: 'left with them', day: '2026-04-10' }, small);
    const awaited = (await desk.ask('papers', { wanted: true, kind: 'septic-permit' }, small)).papers;
    expect(awaited).toMatchObject([{ state: 'awaited' }]);
    const files = [await small.pdf('permit.pdf', ['Septic permit'])];
    await desk.ask('keep', { papers: [{ files, kind: 'septic-permit', issued: '2026-04-12' }] }, small);
    const kept = (await desk.ask('papers', { wanted: true, kind: 'septic-permit' }, small)).papers;
    expect(kept).toMatchObject([
      { issuedDay: '2026-04-12', goodThroughDay: '2027-10-12', from: 'environmental-health' },
    ]);
    expect(kept).toHaveLength(1);
  });

  it('an errand says of each need what stands on the paper, and of a missing one who brings it', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
    const files = [await small.pdf('deed.pdf', ['Deed', 'Exhibit A'])];
    await desk.ask('keep', { papers: [{ files, kind: 'deed', number: 'B-212', issued: '2025-06-02' }] }, small);
    const { needs } = await desk.ask('errand', { errand: 'permit-apply' }, small);
    const deed = needs.find(({ need }) => need === 'deed');
    expect(deed).toMatchObject({ number: 'B-212', issued: '2 Jun 2025', pages: 2, sheets: ['letter'] });
    expect(needs.find(({ need }) => need === 'septic-permit')?.remedy).toMatchObject({
      errand: 'septic-apply',
      title: 'Apply for the septic permit',
      office: 'Environmental health',
    });
  });
});
