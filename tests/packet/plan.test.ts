import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import { asDay } from '../../core/vocabulary/days.ts';
import { textsOf } from '../typeset/written.ts';
import { delivery, evenMetrics, missingFinding, need, orderOf, paper } from './plan-fixture.ts';
import { assembled, packetOf, planOf, sortsOf, stampTexts, two, writtenWords } from './plan-looking.ts';

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

  it('names a draw only on the papers that each draw has its own of', () => {
    const plan = planOf({
      papers: { request: {}, breakdown: {} },
      kinds: { request: { each: 'draw' } },
      lot: { subjects: [{ id: 'd1', sort: 'draw', title: 'Draw 1' }] },
      readings: (reading) => ({ ...reading, subject: 'd1' }),
    });
    expect(plan.tabs.map(({ title }) => title)).toEqual(['request, Draw 1', 'breakdown']);
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
    const good = { x: 40, y: 20, width: 500, height: 12 };
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
