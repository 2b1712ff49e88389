import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import { pagesInWords, pagesOf } from '../../core/vocabulary/page-picks.ts';
import { writeScan } from './make-scan.ts';
import { openSmallLot } from './small-lot.ts';

it('one scan becomes several papers by their pages, without a copy, and leaves the table when all is used', async () => {
  await using small = await openSmallLot();
  const { desk, folder } = small;
  const file = await small.pdf('all.pdf', ['Deed page 1', 'Deed page 2', 'Survey', 'Letter']);
  await desk.ask('lay-down', { files: [file] }, small);
  const item = async () => (await desk.ask('table', {}, small)).items[0];
  const ticket = (await item())?.ticket ?? '';
  const first = await desk.ask('keep', { papers: [{ files: [ticket], pages: ['1-2'], kind: 'deed' }] }, small);
  expect(first.kept).toMatchObject([{ title: 'Deed', pages: 2 }]);
  expect(await item()).toMatchObject({
    already: undefined,
    leftPages: '3-4',
    keptPages: [{ pages: '1-2', title: 'Deed' }],
  });
  const second = await desk.ask(
    'keep',
    {
      papers: [
        { files: [ticket], pages: ['3'], turn: ['90'], kind: 'boundary-survey' },
        { files: [ticket], pages: ['4'], kind: 'other', title: 'A letter' },
      ],
    },
    small,
  );
  expect(second.kept.map(({ title, pages }) => [title, pages])).toEqual([
    ['Boundary survey', 1],
    ['A letter', 1],
  ]);
  expect(await item()).toBeUndefined();
  const originals = readdirSync(join(folder, 'originals'), { recursive: true, encoding: 'utf8' });
  expect(originals.filter((name) => name.endsWith('.pdf')).length).toBe(1);
  const survey = await desk.ask('pages', { edition: 'boundary-survey' }, small);
  expect(survey.pages).toMatchObject([{ page: 2, turn: 90 }]);
  const { found } = await desk.ask('find', { text: 'letter' }, small);
  expect(found.some(({ title, page }) => title === 'A letter' && page === 1)).toBe(true);
});

it('pages that nobody wants go with the rest said to be of no use; a page that is not there is refused', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('all.pdf', ['Deed', 'Fax cover sheet']);
  await desk.ask('lay-down', { files: [file] }, small);
  const ticket = (await desk.ask('table', {}, small)).items[0]?.ticket ?? '';
  const wrong = await desk.ask('keep', { papers: [{ files: [ticket], pages: ['1-3'], kind: 'deed' }] }, small);
  expect(wrong.refused).toMatchObject([
    { error: { message: '"all.pdf" has no page 3.', next: expect.stringMatching(/2 pages, 1 to 2/) } },
  ]);
  await desk.ask('keep', { papers: [{ files: [ticket], pages: ['1'], leaveRest: true, kind: 'deed' }] }, small);
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
});

it('the same pages kept as the same paper again are not kept twice; other pages of the scan are', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const file = await small.pdf('all.pdf', ['Deed', 'Deed, corrected']);
  const one = await desk.ask('keep', { papers: [{ files: [file], pages: ['1'], kind: 'deed' }] }, small);
  const same = await desk.ask('keep', { papers: [{ files: [file], pages: ['1'], kind: 'deed' }] }, small);
  const other = await desk.ask('keep', { papers: [{ files: [file], pages: ['2'], kind: 'deed' }] }, small);
  expect(same.kept).toMatchObject([{ already: true, edition: one.kept[0]?.edition }]);
  expect(other.kept).toMatchObject([{ already: false }]);
});

it('a blank back side left out does not hold the file on the table', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk, root } = small;
  const file = desk.tickets.offer(await writeScan(join(root, 'scan.pdf'), ['Warranty deed', '']));
  await desk.ask('lay-down', { files: [file] }, small);
  const ticket = (await desk.ask('table', {}, small)).items[0]?.ticket ?? '';
  const read = await desk.ask('read', { files: [ticket] }, small);
  expect(read.sound).toMatchObject([{ pages: 2, blank: [1] }]);
  await desk.ask('keep', { papers: [{ files: [ticket], pages: ['1'], kind: 'deed' }] }, small);
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
});

it('pages are read and written as a person does', () => {
  expect(pagesOf('1-3, 5', 6, 'x')).toEqual([0, 1, 2, 4]);
  expect(pagesOf('3-1', 3, 'x')).toEqual([2, 1, 0]);
  expect(pagesOf('', 3, 'x')).toBeUndefined();
  expect(pagesInWords([0, 1, 2, 4])).toBe('1-3, 5');
  expect(() => pagesOf('0', 3, 'x')).toThrow('no page 0');
});

const sheet = (title: string, number: string) =>
  `${title}\n\nPermit No.: ${number}\n\nDate Issued: 03/02/2026\n\nOwner: Ada Brennick\n\nThe work shall follow the plans.`;

it('a scan of several papers is offered as its parts, with the words that gave them away; nothing is parted by itself', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const notes = 'NOTES\n\nThe work shall follow the plans, and they stay on the site.';
  const file = await small.pdf('tray.pdf', [
    sheet('SEPTIC PERMIT', 'EH-26-0417'),
    notes,
    sheet('DRIVEWAY PERMIT', 'DW-118'),
  ]);
  const read = await desk.ask('read', { files: [file] }, small);
  expect(read.cuts).toEqual([
    { pages: '1-2', kind: 'septic-permit', title: 'Septic permit' },
    {
      pages: '3',
      kind: 'driveway-permit',
      title: expect.stringMatching(/Driveway/),
      because: 'It reads “DRIVEWAY PERMIT”.',
    },
  ]);
  expect((await desk.ask('papers', {}, small)).papers).toEqual([]);
  expect(printAnswer('read', read)).toContain('keep "tray.pdf" --page 1-2 --kind septic-permit');
  // Pages that were picked by hand are one paper.
  expect((await desk.ask('read', { files: [file], pages: ['2-3'] }, small)).cuts).toEqual([]);
});

const tray = [
  sheet('SEPTIC PERMIT', 'EH-26-0417'),
  'NOTES\n\nThe work shall follow the plans, and they stay on the site.',
  sheet('DRIVEWAY PERMIT', 'DW-118'),
];

it('a scan is kept as all the papers it looks like in one go, and what was kept of it before is not kept again', async () => {
  await using small = await openSmallLot({ stays: true });
  const { desk } = small;
  await desk.ask('lay-down', { files: [await small.pdf('tray.pdf', tray)] }, small);
  const ticket = (await desk.ask('table', {}, small)).items[0]?.ticket ?? '';
  // Page 3 is kept by hand as something else than it looks like.
  await desk.ask('keep', { papers: [{ files: [ticket], pages: ['3'], kind: 'other', title: 'A letter' }] }, small);
  const rest = await desk.ask('keep-parts', { file: ticket }, small);
  expect(rest).toMatchObject({ kept: [{ title: 'Septic permit', pages: 2, already: false }], refused: [] });
  expect((await desk.ask('table', {}, small)).items).toEqual([]);
  const other = await small.pdf('again.pdf', tray);
  const all = await desk.ask('keep-parts', { file: other }, small);
  expect(all.kept.map(({ title, pages }) => [title, pages])).toEqual([
    ['Septic permit', 2],
    ['Driveway permit', 1],
  ]);
  await expect(desk.ask('keep-parts', { file: other }, small)).rejects.toMatchObject({
    message: 'All papers that "again.pdf" looks like are kept already.',
  });
  const { acts } = await desk.ask('history', {}, small);
  expect(acts.slice(0, 2).map(({ title }) => title)).toEqual(['Kept Driveway permit', 'Kept Septic permit']);
});

it('a part that only the person can name stays to be said by hand; one paper is not parted', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const one = await small.pdf('one.pdf', [sheet('SEPTIC PERMIT', 'EH-26-0417')]);
  await expect(desk.ask('keep-parts', { file: one }, small)).rejects.toMatchObject({
    message: '"one.pdf" looks like one paper.',
    next: expect.stringContaining('keep FILE --kind KIND'),
  });
  const licence = `CONTRACTOR LICENSE\n\nLicense No.: CL-7\n\nDate Issued: 03/02/2026\n\nHolder: Ada Brennick`;
  const file = await small.pdf('tray.pdf', [sheet('SEPTIC PERMIT', 'EH-26-0417'), licence]);
  const answer = await desk.ask('keep-parts', { file }, small);
  expect(answer.kept).toMatchObject([{ title: 'Septic permit' }]);
  expect(answer.refused).toMatchObject([
    { file: 'tray.pdf, page 2', error: { next: expect.stringContaining('--page 2 --kind') } },
  ]);
  expect(printAnswer('keep-parts', answer)).toContain('Not kept: tray.pdf, page 2');
});
