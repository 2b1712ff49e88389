import { describe, expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import type { RequestArgument, RequestName } from '../../core/desk/door.ts';
import { openSmallLot, type SmallLot } from '../desk/small-lot.ts';

async function printed<N extends RequestName>(small: SmallLot, name: N, argument: RequestArgument<N>): Promise<string> {
  return printAnswer(name, await small.desk.ask(name, argument, small));
}

describe('the screens in plain words', () => {
  it('the slip for the day tells where to go, what to carry and what waits', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    expect(await printed(small, 'today', {})).toContain('Find and keep first: ');
    const files = [await small.pdf('deed.pdf', ['Deed'])];
    await desk.ask('keep', { papers: [{ files, kind: 'deed', issued: '2025-06-02' }] }, small);
    const [first] = (await desk.ask('today', {}, small)).can;
    const slip = await printed(small, 'today', {});
    expect(slip).toContain(`1.   ${first?.title}`);
    expect(slip).toContain(`Go to: ${first?.office.title}`);
    const errand = first?.errand ?? '';
    await desk.ask('visit', { errand, state: 'sent back', day: '2026-04-10', comments: ['Sign it.'] }, small);
    const sent = await printed(small, 'today', {});
    expect(sent).toContain(`sent back: ${first?.title}`);
    expect(sent).toContain('1. Sign it.');
    const offices = await printed(small, 'with-offices', {});
    expect(offices).toContain('1. Sign it.');
    expect(offices).toContain('common practice; ask them');
  });

  it('a paper, the table, what may be amended and what was said are told with all that matters', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    const file = await small.pdf('permit.pdf', ['Septic permit']);
    const said = { kind: 'septic-permit', number: 'EH-24', issued: '2026-01-20', facts: { bedrooms: '3' } } as const;
    await desk.ask('keep', { papers: [{ files: [file], ...said }] }, small);
    const paper = await printed(small, 'pages', { edition: 'EH-24' });
    for (const words of ['● IN HAND, 1 page', 'EH-24', 'good through 20 Jul 2027', 'permit.pdf']) {
      expect(paper).toContain(words);
    }
    expect(await printed(small, 'table', {})).toContain('Nothing lies on the table');
    expect(await printed(small, 'lay-down', { files: [file] })).toBe(
      'On the table: permit.pdf (kept already: Septic permit)',
    );
    expect(await printed(small, 'table', {})).toMatch(/^permit\.pdf {2}pdf .*kept already: Septic permit$/);
    const rules = await printed(small, 'amendable', { errand: 'permit-apply' });
    expect(rules).toMatch(/They want 2 copies\. +errands\.permit-apply\.needs\.plans\.copies/);
    await desk.ask('clerk-said', { rule: 'errands.permit-apply.fee', value: 'free', who: 'R. Amsel' }, small);
    expect(await printed(small, 'practice-words', {})).toContain('R. Amsel on 14 Apr 2026');
    expect(await printed(small, 'papers', { wanted: true })).toContain('○ NOT ASKED FOR');
    expect(await printed(small, 'find', { text: 'septic' })).toContain('(errand septic-apply)');
    expect(await printed(small, 'history', {})).toContain('This is where the lot began.');
  });

  it('files made for the owner are told with where they go', async () => {
    await using small = await openSmallLot();
    const { packet } = await small.desk.ask('assemble', { errand: 'permit-apply' }, small);
    expect(await printed(small, 'errand-sheet', { errand: 'permit-apply' })).toContain('--out FOLDER');
    const draft = await printed(small, 'mail-draft', { packet });
    expect(draft).toContain('.eml');
    expect(draft).toContain('DRAFT');
    expect(await printed(small, 'packet-files', { packet })).toMatch(/[0-9a-f]{64}/);
  });
});
