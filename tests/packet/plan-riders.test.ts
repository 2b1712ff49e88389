import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import type { PacketPlan, PlanFile } from '../../core/packet/plan-model.ts';
import type { Edition, LinkWord } from '../../core/vocabulary/lot.ts';
import { wordsOf } from '../typeset/written.ts';
import { delivery, evenMetrics, need, type OrderShape, orderOf, type PaperShape } from './plan-fixture.ts';

/** A rider of "permit-e". */
const rider = (word: LinkWord, shape: PaperShape = {}): PaperShape => ({
  ...shape,
  edition: { links: [{ word, to: 'permit-e' }], ...shape.edition },
});

/** A packet with a deed, a permit and what rides with it; only those two are asked for. */
function planOf(riders: Readonly<Record<string, PaperShape>>, more: Partial<OrderShape> = {}): PacketPlan {
  const shape: OrderShape = {
    papers: { permit: { pages: 2 }, deed: {}, ...riders },
    needs: [need('permit'), need('deed')],
    readings: (reading) =>
      reading.need === 'permit' ? { ...reading, riders: Object.keys(riders).map((id) => `${id}-e`) } : reading,
    ...more,
  };
  return planPacket(orderOf(shape), evenMetrics);
}

type Assembled = Extract<PlanFile, { of: 'assembled' }>;

function fileOf(plan: PacketPlan, sort: Assembled['sort']): Assembled {
  const file = plan.files.find((one): one is Assembled => one.of === 'assembled' && one.sort === sort);
  if (file === undefined) throw new Error(`no ${sort}`);
  return file;
}

const titlesOf = (file: Assembled): readonly string[] =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? sheet.sort : `${sheet.title} ${sheet.page.facts.page + 1}`));
const wordsIn = (file: Assembled): string =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? wordsOf(sheet.drawing) : '')).join(' ');
const placesOf = (plan: PacketPlan) => plan.tabs.map(({ title, place }) => [title, place]);
const unreadable: Partial<Edition> = { readable: false };

describe('a paper that is good only with another', () => {
  it('takes its extension along under its own tab, after its pages', () => {
    const plan = planOf({ 'more-time': rider('extends') });
    const file = fileOf(plan, 'packet');
    expect(titlesOf(file)).toEqual([
      'cover',
      'index',
      'divider',
      'permit 1',
      'permit 2',
      'more-time 1',
      'divider',
      'deed 1',
    ]);
    expect(plan.tabs.map(({ title, pages, riders }) => [title, pages, riders])).toEqual([
      ['permit, with its extension', 3, ['more-time-e']],
      ['deed', 1, undefined],
    ]);
    const index = file.sheets[1];
    expect(index?.of === 'written' ? wordsOf(index.drawing) : '').toContain('permit, with its extension');
    expect(file.bookmarks[2]).toEqual({
      title: '1  permit, with its extension',
      sheet: 2,
      children: [{ title: 'more-time', sheet: 5, children: [] }],
    });
    expect(file.sheets[5]).toMatchObject({
      edition: 'more-time-e',
      tab: 1,
      stamp: { text: 'PERMIT-APPLY · tab 1 · 4 of 6' },
    });
  });

  it('names everything that rides with it', () => {
    const plan = planOf({
      one: rider('amends'),
      two: rider('amends'),
      three: rider('extends'),
      four: rider('continues'),
    });
    expect(plan.tabs[0]?.title).toBe('permit, with its 2 amendments and extension and next period');
  });

  it('stands in one file with it where every paper is a file of its own', () => {
    const deliver = { ...delivery, way: 'upload', files: 'separate files' } as const;
    const plan = planOf({ 'more-time': rider('extends') }, { errand: { deliver } });
    const file = fileOf(plan, 'paper');
    expect([file.name, ...titlesOf(file)]).toEqual(['01_permit.pdf', 'permit 1', 'permit 2', 'more-time 1']);
    expect(file.bookmarks[0]?.children).toEqual([{ title: 'more-time', sheet: 2, children: [] }]);
    expect(titlesOf(fileOf(plan, 'packet'))).toEqual(['cover', 'index']);
  });

  it('is followed at once by what travels apart: sealed, untouched, on paper only', () => {
    const sealed = planOf({ 'more-time': rider('extends', { edition: { sealed: true } }) });
    expect(placesOf(sealed)).toEqual([
      ['permit', 'inside'],
      ['more-time', 'beside'],
      ['deed', 'inside'],
    ]);
    expect(sealed.files.find(({ of }) => of === 'untouched')?.name).toBe('tab-02_more-time.pdf');
    const roll = planOf({ 'more-time': rider('extends', { edition: { physicalOnly: true, pages: 0 } }) });
    expect(placesOf(roll)[1]).toEqual(['more-time', 'by hand']);
    const untouched = planOf(
      { 'more-time': rider('extends') },
      { errand: { deliver: { ...delivery, untouched: true } } },
    );
    expect(placesOf(untouched).map(([, place]) => place)).toEqual(['beside', 'beside', 'beside']);
  });

  it('is carried by hand together with it where it is only shown', () => {
    const plan = planOf({ 'more-time': rider('extends') }, { needs: [need('permit', { use: 'show' }), need('deed')] });
    expect(placesOf(plan)).toEqual([
      ['permit, with its extension', 'by hand'],
      ['deed', 'inside'],
    ]);
    expect(wordsIn(fileOf(plan, 'errand sheet'))).toContain('permit, with its extension');
  });

  it('makes a draft where what it needs to be good can not be read', () => {
    const plan = planOf({ 'more-time': rider('extends', { edition: unreadable }) });
    expect(placesOf(plan)[1]).toEqual(['more-time', 'missing']);
    expect(plan.draft).toBe(true);
  });

  it('goes in once, whichever need comes first', () => {
    const riders = { 'more-time': rider('extends') };
    const after = planOf(riders, { needs: [need('permit'), need('more-time')] });
    expect(after.tabs.map(({ title, seeTab }) => [title, seeTab])).toEqual([
      ['permit, with its extension', undefined],
      ['more-time', 1],
    ]);
    const before = planOf(riders, { needs: [need('more-time'), need('permit')] });
    expect(before.tabs.map(({ title, seeTab }) => [title, seeTab])).toEqual([
      ['more-time', undefined],
      ['permit', undefined],
    ]);
    const twice = planOf(riders, { needs: [need('permit'), need('again', { kinds: ['permit'] })] });
    expect(twice.tabs.map(({ pages, seeTab }) => [pages, seeTab])).toEqual([
      [3, undefined],
      [0, 1],
    ]);
  });

  it('takes one no rule knows on the owner’s word that it belongs, and that is told', () => {
    const plan = planOf({ other: rider('extends') });
    expect(plan.tabs[0]?.riders).toHaveLength(1);
    expect(plan.notes.join(' ')).toContain(
      'No rule knows "other": it goes in because you noted that it belongs to "permit".',
    );
  });

  it('goes without a private one that nobody asked for, and that is told', () => {
    const plan = planOf({ 'more-time': rider('extends') }, { kinds: { 'more-time': { private: true } } });
    expect(plan.tabs[0]?.title).toBe('permit');
    expect(plan.notes.join(' ')).toContain('"more-time" belongs to "permit", but is private');
  });
});
