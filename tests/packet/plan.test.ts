import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import type { PacketPlan, PlanFile, PlanSheet } from '../../core/packet/plan-model.ts';
import { asDay } from '../../core/vocabulary/days.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import type { Delivery } from '../../core/vocabulary/practice.ts';
import { textsOf, wordsOf } from '../typeset/written.ts';
import { delivery, evenMetrics, missingFinding, need, type OrderShape, orderOf, paper } from './plan-fixture.ts';

const planOf = (shape: OrderShape): PacketPlan => planPacket(orderOf(shape), evenMetrics);

type Assembled = Extract<PlanFile, { of: 'assembled' }>;
const assembled = (plan: PacketPlan, sort: Assembled['sort']): readonly Assembled[] =>
  plan.files.flatMap((file) => (file.of === 'assembled' && file.sort === sort ? [file] : []));
const packetOf = (plan: PacketPlan): Assembled => {
  const [file] = assembled(plan, 'packet');
  if (file === undefined) throw new Error('no packet file');
  return file;
};
const sortsOf = (file: Assembled): readonly string[] =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? sheet.sort : `${sheet.title} ${sheet.page.facts.page + 1}`));
const stampTexts = (sheets: readonly PlanSheet[]): readonly string[] =>
  sheets.flatMap((sheet) =>
    sheet.of === 'paper' ? ['text' in sheet.stamp ? sheet.stamp.text : sheet.stamp.none] : [],
  );
const writtenWords = (file: Assembled): string =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? wordsOf(sheet.drawing) : '')).join(' ');

const two = { papers: { deed: { pages: 2 }, 'septic-permit': { pages: 3 } } } as const;

describe('a packet in one file', () => {
  it('stands in practice order: cover, index, then each divider with its pages', () => {
    expect(sortsOf(packetOf(planOf(two)))).toEqual([
      'cover',
      'index',
      'divider',
      'deed 1',
      'deed 2',
      'divider',
      'septic-permit 1',
      'septic-permit 2',
      'septic-permit 3',
    ]);
  });

  it('numbers every sheet after the index, in the stamps and in the page labels alike', () => {
    const file = packetOf(planOf(two));
    expect(stampTexts(file.sheets)).toEqual([
      'PERMIT-APPLY · tab 1 · 2 of 7',
      'PERMIT-APPLY · tab 1 · 3 of 7',
      'PERMIT-APPLY · tab 2 · 5 of 7',
      'PERMIT-APPLY · tab 2 · 6 of 7',
      'PERMIT-APPLY · tab 2 · 7 of 7',
    ]);
    expect(file.labels).toEqual([
      { sheet: 0, style: 'roman', prefix: '', start: 1 },
      { sheet: 2, style: 'decimal', prefix: '', start: 1 },
    ]);
  });

  it('leads from each index row and bookmark to the first sheet of its tab', () => {
    const file = packetOf(planOf(two));
    const index = file.sheets[1];
    const links = index?.of === 'written' ? index.drawing.links.map(({ toSheet }) => toSheet) : [];
    expect(links).toEqual([2, 5]);
    expect(file.bookmarks.map(({ title, sheet }) => [title, sheet])).toEqual([
      ['Cover', 0],
      ['Index', 1],
      ['1  deed', 2],
      ['2  septic-permit', 5],
    ]);
    for (const to of links) expect(file.sheets[to]).toMatchObject({ of: 'written', sort: 'divider' });
  });

  it('keeps links right when the index itself takes several sheets', () => {
    const papers = Object.fromEntries(Array.from({ length: 90 }, (_, n) => [`paper-${n}`, {}]));
    const file = packetOf(planOf({ papers }));
    const front = file.sheets.filter((sheet) => sheet.of === 'written' && sheet.sort === 'index').length + 1;
    expect(front).toBeGreaterThan(2);
    const links = file.sheets.flatMap((sheet) =>
      sheet.of === 'written' && sheet.sort === 'index' ? sheet.drawing.links : [],
    );
    expect(links.map(({ toSheet }) => toSheet)).toEqual(Array.from({ length: 90 }, (_, n) => front + 2 * n));
  });

  it('leaves out what the delivery does not want', () => {
    const bare = { ...delivery, cover: false, index: false, dividers: false, bookmarks: false, stamps: false };
    const plan = planOf({ ...two, errand: { deliver: bare } });
    const file = packetOf(plan);
    expect(sortsOf(file)).toEqual(['deed 1', 'deed 2', 'septic-permit 1', 'septic-permit 2', 'septic-permit 3']);
    expect(file.bookmarks).toEqual([]);
    expect(stampTexts(file.sheets).every((text) => text.startsWith('this delivery'))).toBe(true);
    expect(plan.notes).toEqual([]);
  });

  it('gives the same plan for the same order', () => {
    expect(JSON.stringify(planOf(two))).toBe(JSON.stringify(planOf(two)));
  });

  it('puts an edition that serves two needs in once and points to it', () => {
    const plan = planOf({
      papers: { survey: { pages: 2 } },
      needs: [need('survey'), need('site-plan', { kinds: ['survey'] })],
    });
    expect(plan.tabs.map(({ pages, seeTab }) => [pages, seeTab])).toEqual([
      [2, undefined],
      [0, 1],
    ]);
    expect(sortsOf(packetOf(plan))).toEqual(['cover', 'index', 'divider', 'survey 1', 'survey 2', 'divider']);
    expect(writtenWords(packetOf(plan))).toContain('SEE TAB 1');
  });
});

describe('stamps', () => {
  it('take the first clear strip their text fits into', () => {
    const small = { x: 0, y: 0, width: 60, height: 12 };
    const thin = { x: 0, y: 0, width: 500, height: 3 };
    const good = { x: 590, y: 40, width: 12, height: 700 };
    const plan = planOf({ papers: { deed: { page: { clearStrips: [small, thin, good] } } } });
    const stamp = packetOf(plan).sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.stamp] : []))[0];
    expect(stamp).toMatchObject({ strip: good, tab: 1, tabs: 1, draft: false });
  });

  it('leave a crowded page bare, and the reason is told once with counts', () => {
    const plan = planOf({ papers: { deed: { pages: 3, page: { clearStrips: [] } }, survey: { pages: 2 } } });
    expect(plan.notes).toEqual(['3 sheets bear no margin line: no clear margin. deed (3).']);
  });

  it('never touch a sealed paper, not even its reference copy', () => {
    const deliver = { ...delivery, sealedCopy: true };
    const plan = planOf({ papers: { plans: { pages: 2, edition: { sealed: true } } }, errand: { deliver } });
    const stamps = packetOf(plan).sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.stamp] : []));
    expect(stamps).toHaveLength(2);
    expect(stamps.every((stamp) => 'none' in stamp)).toBe(true);
  });
});

describe('a missing paper', () => {
  const shape = { papers: { deed: {}, 'driveway-permit': 'missing' } } as const;

  it('keeps its place with an out card, and the packet is a draft everywhere', () => {
    const plan = planOf(shape);
    const file = packetOf(plan);
    expect(plan.draft).toBe(true);
    expect(sortsOf(file)).toEqual(['cover', 'index', 'divider', 'deed 1', 'out card']);
    expect(file.name).toContain('DRAFT');
    for (const sheet of file.sheets) {
      if (sheet.of === 'written') expect(wordsOf(sheet.drawing)).toContain('DRAFT');
      else expect('strip' in sheet.stamp && sheet.stamp.draft).toBe(true);
    }
    expect(writtenWords(file)).toContain('Get the driveway-permit.');
  });

  // Fixed bug: the cover told an office the first day one could *ask* for a paper as the day it was expected.
  it('is expected on a day only where it is with another office already', () => {
    expect(writtenWords(packetOf(planOf(shape)))).not.toContain('4 May 2026');
    const awaited = planOf({
      ...shape,
      readings: (reading) => (reading.kind === 'driveway-permit' ? { ...reading, state: 'awaited' } : reading),
    });
    expect(writtenWords(packetOf(awaited))).toContain('4 May 2026');
  });

  it('is not the only gap told: a cover without owner, place or parcel is told too', () => {
    expect(planOf(shape).notes.join(' ')).not.toContain('cover');
    const bare = planOf({ ...shape, lot: { identities: [] } });
    expect(bare.notes.join(' ')).toContain('No owner, place and parcel');
  });

  it('is also one whose file was purged or can not be read, for an errand and for papers of one’s own choice', () => {
    const bad = {
      'septic-permit': { pages: 2, edition: { readable: false } },
      survey: { pages: 0, edition: { pages: 0 } },
    };
    const order = orderOf({ papers: { deed: {}, ...bad } });
    const purged = { pages: [], originals: [], notes: [] };
    const contents = { ...order.contents, 'survey-e': purged };
    const editions = ['deed-e', 'septic-permit-e', 'survey-e'];
    const own = { of: 'own choice', title: 'For the bank', recipient: 'Loan desk', editions, delivery } as const;
    for (const purpose of [order.purpose, own]) {
      const plan = planPacket({ ...order, purpose, contents }, evenMetrics);
      expect(plan.tabs.map(({ kind, place, paper: id }) => [kind, place, id])).toEqual([
        ['deed', 'inside', 'deed-p'],
        ['septic-permit', 'missing', 'septic-permit-p'],
        ['survey', 'missing', 'survey-p'],
      ]);
      expect(sortsOf(packetOf(plan)).slice(-3)).toEqual(['deed 1', 'out card', 'out card']);
      expect(plan.draft).toBe(true);
      expect(plan.notes.join(' ')).toContain(`"septic-permit" can't be read`);
      expect(plan.notes.join(' ')).toContain('"survey" has no pages in the lot folder');
      const all = planPacket(
        { ...order, purpose, contents, override: { reason: 'They know.', day: '2026-04-14' } },
        evenMetrics,
      );
      expect(all.tabs.map(({ place }) => place)).toEqual(['inside', 'to follow', 'to follow']);
    }
  });

  it('is never one that has no pages but a file, which goes beside as it is', () => {
    const order = orderOf({ papers: { deed: { pages: 0, edition: { pages: 0 } } } });
    expect(planPacket(order, evenMetrics).tabs[0]).toMatchObject({ place: 'beside' });
  });

  it('goes without its card when the owner decides so, and the cover lists it to follow', () => {
    const plan = planOf({ ...shape, override: { reason: 'They said to come.', day: '2026-04-14' } });
    const file = packetOf(plan);
    expect(plan.draft).toBe(false);
    expect(sortsOf(file)).toEqual(['cover', 'index', 'divider', 'deed 1']);
    const cover = file.sheets[0];
    const words = cover?.of === 'written' ? wordsOf(cover.drawing) : '';
    expect(words).toContain('To follow');
    expect(words).toContain('driveway-permit');
    expect(words).not.toContain('They said to come.');
    expect(writtenWords(assembled(plan, 'errand sheet')[0] ?? file)).toContain('They said to come.');
  });

  it("can't be overridden away where it can't be undone", () => {
    const findings = [missingFinding('driveway-permit', { final: true })];
    const refused = (): PacketPlan => planOf({ ...shape, findings, override: { reason: 'No.', day: '2026-04-14' } });
    expect(refused).toThrow(LotfileError);
    expect(refused).toThrow(/can't be undone/);
    try {
      refused();
    } catch (error) {
      expect(LotfileError.from(error).code).toBe('packet refused');
    }
  });

  it('nor where a hold only hangs on an unanswered question', () => {
    const findings = [
      missingFinding('driveway-permit', { final: true, weight: 'ask first', sort: 'errand not settled' }),
    ];
    expect(() => planOf({ ...shape, findings, override: { reason: 'No.', day: '2026-04-14' } })).toThrow(
      /can't be undone/,
    );
    expect(planOf({ ...shape, findings }).draft).toBe(true);
  });

  it('is simply absent where it is optional, and told where it is not known to apply', () => {
    const plan = planOf({
      papers: { deed: {}, 'house-photos': 'missing', 'flood-letter': 'missing' },
      needs: [need('deed'), need('house-photos', { optional: true }), need('flood-letter')],
      readings: (reading) =>
        reading.need === 'flood-letter' ? { ...reading, applies: 'unknown', findings: [] } : reading,
    });
    expect(plan.tabs.map(({ kind }) => kind)).toEqual(['deed']);
    expect(plan.draft).toBe(false);
    expect(plan.notes.join(' ')).toContain('flood-letter');
  });

  it('makes a draft of any packet that would be refused, though nothing is missing', () => {
    const plan = planOf({ papers: { deed: {} }, findings: [missingFinding('deed', { sort: 'disagree' })] });
    expect(plan.draft).toBe(true);
  });
});

describe('papers that do not go in', () => {
  it('a sealed file travels beside, named with its hash on cover and note', () => {
    const plan = planOf({ papers: { deed: {}, plans: { pages: 2, edition: { sealed: true } } } });
    const beside = plan.files.find((file) => file.of === 'untouched');
    expect(beside).toMatchObject({ sort: 'sealed', tab: 2, file: { name: 'plans.pdf' }, name: 'tab-02_plans.pdf' });
    expect(sortsOf(packetOf(plan))).toEqual(['cover', 'index', 'divider', 'deed 1', 'divider']);
    expect(writtenWords(packetOf(plan))).toContain(beside?.name ?? '?');
    expect(plan.notes.join(' ')).toContain('proves neither a licence nor an approval');
  });

  it('a reference copy of it is told on the leaf before it and in its bookmark, even without dividers', () => {
    const deliver = { ...delivery, sealedCopy: true, dividers: false };
    const file = packetOf(planOf({ papers: { plans: { pages: 2, edition: { sealed: true } } }, errand: { deliver } }));
    expect(sortsOf(file)).toEqual(['cover', 'index', 'divider', 'plans 1', 'plans 2']);
    expect(writtenWords(file)).toContain('REFERENCE COPY');
    expect(file.bookmarks.at(-1)?.title).toBe('1  plans (reference copy)');
  });

  it('what exists on paper only, or is only shown, is carried by hand and stands on the errand sheet', () => {
    const plan = planOf({
      papers: { statement: { edition: { physicalOnly: true } }, 'owner-id': {} },
      needs: [need('statement'), need('owner-id', { use: 'show' })],
    });
    expect(plan.tabs.map(({ place }) => place)).toEqual(['by hand', 'by hand']);
    expect(packetOf(plan).sheets.every((sheet) => sheet.of === 'written')).toBe(true);
    const words = writtenWords(assembled(plan, 'errand sheet')[0] ?? packetOf(plan));
    expect(words).toContain('show it and take it back');
  });

  it('a private paper stays out unless the errand asks for its kind by name', () => {
    const kinds = { 'owner-id': { private: true } };
    const asked = planOf({ papers: { 'owner-id': {} }, kinds });
    expect(asked.tabs).toHaveLength(1);
    const unasked = planOf({
      papers: { 'owner-id': {} },
      kinds,
      needs: [need('proof', { kinds: ['deed'] })],
      readings: (reading) => ({
        ...reading,
        kind: 'owner-id',
        paper: 'owner-id-p',
        edition: 'owner-id-e',
        findings: [],
      }),
    });
    expect(unasked.tabs).toEqual([]);
    expect(unasked.notes.join(' ')).toContain('private');
  });

  it('a private paper that goes by mail or lies in the site binder is told of, at a counter it is not', () => {
    const kinds = { 'owner-id': { private: true } };
    const notes = (way: Delivery['way']) =>
      planOf({ papers: { 'owner-id': {} }, kinds, errand: { deliver: { ...delivery, way } } }).notes.join(' ');
    expect(notes('e-mail')).toContain('"owner-id" is private. It goes by e-mail');
    expect(notes('site binder')).toContain('"owner-id" is private. Whoever opens the site binder can read it.');
    expect(notes('counter')).not.toContain('private');
  });

  it('refuses to plan with a paper whose pages are gone, naming it', () => {
    const order = orderOf({ papers: { deed: {} } });
    expect(() => planPacket({ ...order, contents: {} }, evenMetrics)).toThrow(
      /The pages of "deed" are not in the lot folder/,
    );
  });
});

describe('a packet of the owner’s own choosing', () => {
  it('holds the papers asked for, in that order, each once, and tells of private ones', () => {
    const order = orderOf({ papers: { deed: {}, 'owner-id': {} }, kinds: { 'owner-id': { private: true } } });
    const purpose = {
      of: 'own choice',
      title: 'For Aunt Æva’s lawyer',
      recipient: 'M. Okafor',
      editions: ['owner-id-e', 'deed-e', 'owner-id-e'],
      delivery,
    } as const;
    const plan = planPacket({ ...order, purpose }, evenMetrics);
    expect(plan.code).toBe('FOR-AUNT-AEVAS-LAWYER');
    expect(plan.tabs.map(({ kind, seeTab }) => [kind, seeTab])).toEqual([
      ['owner-id', undefined],
      ['deed', undefined],
      ['owner-id', 1],
    ]);
    expect(plan.notes[0]).toContain('private');
    expect(plan.draft).toBe(false);
  });

  it('carries what may be objected to, at its tab and on the owner’s own sheet, and is no draft for it', () => {
    const order = orderOf({ papers: { deed: {}, survey: {} } });
    const findings = [
      missingFinding('deed', { weight: 'good to know', sort: 'caution', edition: 'deed-e', say: 'Look twice.' }),
      missingFinding('survey', { weight: 'questioned', sort: 'lapsed', edition: 'survey-e', say: 'It lapsed.' }),
    ];
    const editions = ['deed-e', 'survey-e'];
    const purpose = { of: 'own choice', title: 'T', recipient: 'R', editions, delivery, findings } as const;
    const plan = planPacket({ ...order, purpose }, evenMetrics);
    expect(plan.findings.map(({ say }) => say)).toEqual(['It lapsed.', 'Look twice.']);
    expect(plan.tabs.map((tab) => tab.findings.map(({ say }) => say))).toEqual([['Look twice.'], ['It lapsed.']]);
    expect(plan.draft).toBe(false);
    expect(writtenWords(assembled(plan, 'errand sheet')[0] ?? packetOf(plan))).toContain('It lapsed.');
    expect(writtenWords(packetOf(plan))).not.toContain('It lapsed.');
  });

  it('carries what they sent it back with, and what coming again costs, on the owner’s own sheet alone', () => {
    const order = orderOf({ papers: { deed: {} }, errand: { fee: 64_000, againFee: 4500 } });
    if (order.purpose.of !== 'errand') throw new Error('An errand was asked for.');
    const comments = [{ number: '2', text: 'Bolt the hold-down.', due: asDay('2026-10-10') }];
    const sheetOf = (again: boolean): string => {
      const due = again ? { fee: 4500, feeNote: 'for coming again' } : { fee: 64_000 };
      const purpose = { ...order.purpose, trip: { comments, ...due } };
      const plan = planPacket({ ...order, purpose }, evenMetrics);
      expect(writtenWords(packetOf(plan))).not.toContain('hold-down');
      return writtenWords(assembled(plan, 'errand sheet')[0] ?? packetOf(plan));
    };
    expect(sheetOf(true)).toMatch(/2\. Bolt the hold-down\..*answer by 10 Oct 2026/);
    expect(sheetOf(true)).toMatch(/\$45, for coming again/);
    expect(sheetOf(false)).toMatch(/\$640/);
  });

  it('says so where a chosen paper is no longer there', () => {
    const purpose = { of: 'own choice', title: 'T', recipient: 'R', editions: ['gone'], delivery } as const;
    expect(() => planPacket({ ...orderOf({ papers: {} }), purpose }, evenMetrics)).toThrow(/no longer in the lot/);
  });
});

describe('the words on the sheets', () => {
  it('never call anything safe, approved, certified or guaranteed as our own statement', () => {
    const plan = planOf({
      papers: {
        deed: {},
        plans: { edition: { sealed: true } },
        statement: { edition: { physicalOnly: true } },
        drive: 'missing',
      },
      errand: { fee: 24000, bring: ['photo id'], ask: ['Which desk?'], deliver: { ...delivery, sealedCopy: true } },
    });
    const words = plan.files.map((file) => (file.of === 'assembled' ? writtenWords(file) : '')).join(' ');
    expect(words.length).toBeGreaterThan(2000);
    expect(words).not.toMatch(/\b(safe|approved|certified|guaranteed)\b/i);
  });

  it('show a square for a letter no face has, and a note names it', () => {
    const order = orderOf({ papers: { deed: {} } });
    const lot = { ...order.lot, papers: [paper('deed', { title: 'Deed 漢' })] };
    const plan = planPacket({ ...order, lot }, evenMetrics);
    expect(writtenWords(packetOf(plan))).toContain('Deed □');
    expect(plan.notes.join(' ')).toContain('漢 (U+6F22)');
  });

  it('print the place and owners that hold on the day of the visit', () => {
    const cover = packetOf(planOf({ papers: { deed: {} } })).sheets[0];
    const texts = cover?.of === 'written' ? textsOf(cover.drawing).map(({ text }) => text) : [];
    expect(texts).toContain('418 Heron Lane');
    expect(texts).not.toContain('Lot 7, Heron Lane');
    expect(texts.join(' ')).toContain('Hạnh Nguyễn Lindqvist, Tomás Lindqvist');
  });
});
