import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import { codeOf, FileNames } from '../../core/packet/plan/names.ts';
import type { PacketPlan, PlanFile } from '../../core/packet/plan-model.ts';
import { wordsOf } from '../typeset/written.ts';
import { delivery, evenMetrics, missingFinding, need, type OrderShape, orderOf } from './plan-fixture.ts';

const planOf = (shape: OrderShape): PacketPlan => planPacket(orderOf(shape), evenMetrics);
type Assembled = Extract<PlanFile, { of: 'assembled' }>;
const assembled = (plan: PacketPlan, sort: Assembled['sort']): readonly Assembled[] =>
  plan.files.flatMap((file) => (file.of === 'assembled' && file.sort === sort ? [file] : []));
const writtenWords = (file: Assembled | undefined): string =>
  (file?.sheets ?? []).map((sheet) => (sheet.of === 'written' ? wordsOf(sheet.drawing) : '')).join(' ');

const parts = {
  n: 3,
  tab: 12,
  paper: 'Permis d’eau: Nº 4/B',
  number: 'OSW.2025.418',
  day: '2026-04-14',
  lot: 'Heron Lane',
};

describe('file names', () => {
  it('follow the office’s pattern, without odd characters or inner dots', () => {
    const names = new FileNames({ fileName: '{n}_{paper}_{number}_{lot}.pdf' });
    expect(names.byPattern(parts)).toBe('03_Permis-deau-N-4-B_OSW-2025-418_Heron-Lane.pdf');
  });

  it('stay within the office’s limit, unique without regard to case, and clean, whatever the papers are called', () => {
    const paperNames = fc.array(fc.string({ unit: 'grapheme', maxLength: 90 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(paperNames, fc.integer({ min: 20, max: 90 }), (papers, fileNameLimit) => {
        const names = new FileNames({ fileName: '{paper}', fileNameLimit });
        const given = papers.map((paper) => names.byPattern({ ...parts, paper }));
        for (const name of given) {
          expect(name).toMatch(/^[A-Za-z0-9][A-Za-z0-9_-]*\.pdf$/);
          expect(name.length).toBeLessThanOrEqual(fileNameLimit);
        }
        expect(new Set(given.map((name) => name.toLowerCase())).size).toBe(given.length);
      }),
    );
  });

  // Menlo Park CA, file specifications: 60 characters at most, no odd characters, no inner dots.
  it('keep to sixty characters where the office says so, its own ending included', () => {
    const names = new FileNames({ fileNameLimit: 60 });
    expect(names.byPattern({ ...parts, paper: 'A very long title of a paper '.repeat(5) }).length).toBeLessThanOrEqual(
      60,
    );
  });

  it('avoid the names Windows keeps for itself', () => {
    expect(new FileNames({ fileName: '{paper}' }).byPattern({ ...parts, paper: 'Con' })).toBe('Con_.pdf');
  });

  it('have a code of plain capitals, cut at a word', () => {
    expect(codeOf('Łódź: đường số 5')).toBe('LODZ-DUONG-SO-5');
    expect(codeOf('the very last packet for the lender of all')).toBe('THE-VERY-LAST-PACKET-FOR');
    expect(codeOf('漢字')).toBe('PACKET');
  });
});

describe('separate files', () => {
  const deliver = { ...delivery, way: 'upload', files: 'separate files', cover: false, index: false } as const;

  it('are one per paper in tab order, numbered within themselves', () => {
    const plan = planOf({
      papers: { deed: { pages: 2 }, plans: { edition: { sealed: true } }, septic: {} },
      errand: { deliver },
    });
    expect(plan.files.map(({ name }) => name)).toEqual([
      '01_deed.pdf',
      '02_plans.pdf',
      '03_septic.pdf',
      'PRIVATE-errand-sheet-heron-lane-permit-apply-2026-04-14.pdf',
    ]);
    expect(plan.files[1]).toMatchObject({ of: 'untouched', sort: 'sealed' });
    const [deed] = assembled(plan, 'paper');
    const stamps = deed?.sheets.map((sheet) => (sheet.of === 'paper' && 'text' in sheet.stamp ? sheet.stamp.text : ''));
    expect(stamps).toEqual(['PERMIT-APPLY · tab 1 · 1 of 2', 'PERMIT-APPLY · tab 1 · 2 of 2']);
  });

  it('go byte for byte as they came where the office wants that', () => {
    const plan = planOf({ papers: { deed: {}, septic: {} }, errand: { deliver: { ...deliver, untouched: true } } });
    const sorts = plan.files.map((file) => [file.of, file.sort]);
    expect(sorts).toEqual([
      ['untouched', 'upload'],
      ['untouched', 'upload'],
      ['assembled', 'errand sheet'],
    ]);
  });

  it('have cover and index in a file of their own before them, where those are wanted', () => {
    const plan = planOf({ papers: { deed: {} }, errand: { deliver: { ...deliver, cover: true, index: true } } });
    const [front] = assembled(plan, 'packet');
    expect(plan.files[0]).toBe(front);
    expect(front?.sheets.every((sheet) => sheet.of === 'written')).toBe(true);
    expect(writtenWords(front)).toContain('01_deed.pdf');
    expect(writtenWords(front)).toContain('1 paper in 1 file');
  });

  it('tell of each file that is larger than the office takes', () => {
    const plan = planOf({
      papers: { deed: { bytes: 9_000_000 }, septic: {} },
      errand: { deliver: { ...deliver, fileLimit: 5_000_000 } },
    });
    expect(plan.notes.filter((note) => note.includes('5.0 MB at most'))).toHaveLength(1);
    expect(plan.notes.join(' ')).toContain('01_deed.pdf');
  });

  it('leave out what is wanted on paper only', () => {
    const plan = planOf({ papers: { deed: {} }, needs: [need('deed', { form: 'paper' })], errand: { deliver } });
    expect(plan.tabs[0]?.place).toBe('by hand');
    expect(plan.notes.join(' ')).toContain('wanted on paper');
  });
});

describe('volumes', () => {
  const papers = Object.fromEntries(
    Array.from({ length: 6 }, (_, n) => [`paper-${n + 1}`, { pages: 2, bytes: 1_000_000 }]),
  );
  const deliver = { ...delivery, fileLimit: 5_000_000 };

  it('split at tab borders, each under the office’s limit, nothing lost and nothing twice', () => {
    const volumes = assembled(planOf({ papers, errand: { deliver } }), 'packet');
    expect(volumes.length).toBe(3);
    const tabs = volumes.map((file) => [
      ...new Set(file.sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.tab] : []))),
    ]);
    expect(tabs).toEqual([
      [1, 2],
      [3, 4],
      [5, 6],
    ]);
    for (const file of volumes) expect(file.estimatedBytes).toBeLessThan(5_000_000);
    expect(volumes.map(({ name }) => name)).toEqual([
      'heron-lane-permit-apply-2026-04-14-volume-1-of-3.pdf',
      'heron-lane-permit-apply-2026-04-14-volume-2-of-3.pdf',
      'heron-lane-permit-apply-2026-04-14-volume-3-of-3.pdf',
    ]);
  });

  it('have each their own cover that names the others, and sheet numbers that run on', () => {
    const volumes = assembled(planOf({ papers, errand: { deliver: { ...deliver, cover: false } } }), 'packet');
    expect(volumes.map((file) => file.labels.at(-1)?.start)).toEqual([1, 7, 13]);
    const second = volumes[1];
    expect(second?.sheets[0]).toMatchObject({ sort: 'cover' });
    expect(writtenWords(second)).toContain('2 of 3');
    expect(writtenWords(second)).toContain('volume 1: tabs 1 to 2');
    expect(writtenWords(second)).toContain('volume 3: tabs 5 to 6');
  });

  it('link only to sheets of their own file', () => {
    for (const file of assembled(planOf({ papers, errand: { deliver } }), 'packet')) {
      const links = file.sheets.flatMap((sheet) => (sheet.of === 'written' ? sheet.drawing.links : []));
      const tabs = links
        .map(({ toSheet }) => file.sheets[toSheet])
        .map((sheet) => (sheet?.of === 'written' ? sheet.sort : 'paper'));
      expect(tabs.filter((sort) => sort === 'divider')).toHaveLength(2);
    }
  });

  it('give a single over-large paper a volume of its own, and tell it', () => {
    const plan = planOf({ papers: { ...papers, 'paper-3': { pages: 9, bytes: 1_000_000 } }, errand: { deliver } });
    const alone = assembled(plan, 'packet').find(
      (file) => file.sheets.filter((sheet) => sheet.of === 'paper').length === 9,
    );
    expect(new Set(alone?.sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.tab] : [])))).toEqual(new Set([3]));
    expect(plan.notes.join(' ')).toContain('"paper-3" alone is larger');
  });
});

describe('the print shop’s file', () => {
  const large = { pages: 3, page: { width: 2592, height: 1728 } };

  it('holds the large sheets once more, in order, with their numbers in the packet', () => {
    const plan = planOf({ papers: { deed: {}, plans: large, trusses: { ...large, pages: 1 } } });
    const [file] = assembled(plan, 'print shop');
    expect(file?.sheets).toHaveLength(4);
    expect(file?.title).toBe('For the print shop: 4 sheets ARCH D');
    // Dividers stand before each paper: deed 1-2, plans 3-6, trusses 7-8.
    expect(file?.labels).toEqual([
      { sheet: 0, style: 'decimal', prefix: '', start: 4 },
      { sheet: 3, style: 'decimal', prefix: '', start: 8 },
    ]);
  });

  it('is not made for what goes by wire, nor without large sheets', () => {
    expect(
      assembled(
        planOf({ papers: { plans: large }, errand: { deliver: { ...delivery, way: 'e-mail' } } }),
        'print shop',
      ),
    ).toEqual([]);
    expect(assembled(planOf({ papers: { deed: {} } }), 'print shop')).toEqual([]);
  });
});

describe('the errand sheet', () => {
  const shape: OrderShape = {
    papers: { deed: {}, plans: {} },
    needs: [need('deed'), need('plans', { copies: 3, sheets: ['arch-d'], seal: ['wet'] })],
    errand: {
      fee: 24050,
      feeNote: 'review only',
      bring: ['photo id'],
      ask: ['Which desk?'],
      appear: 'every owner',
      caution: 'Nothing may be poured yet.',
    },
    findings: [
      missingFinding('deed', { weight: 'good to know', say: 'LAST' }),
      missingFinding('deed', { weight: 'ask first', say: 'THIRD', remedy: { say: 'Phone about it.' } }),
      missingFinding('deed', {
        weight: 'questioned',
        say: 'SECOND',
        basis: { on: 'published', source: 'checklist', read: '2026-03-30' },
      }),
      missingFinding('deed', { weight: 'refused', say: 'FIRST' }),
    ],
  };
  const words = writtenWords(assembled(planOf(shape), 'errand sheet')[0]);

  it('gives the findings heaviest first, each with who says so and what to do', () => {
    const places = ['FIRST', 'SECOND', 'THIRD', 'LAST'].map((word) => words.indexOf(word));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places.every((at) => at > 0)).toBe(true);
    expect(words).toContain('R. Amsel, permit desk, 2 Apr 2026');
    expect(words).toContain('published: checklist, read 30 Mar 2026');
  });

  it('says fee, who appears, what to carry, copies beyond the sets, what to ask and what to mind', () => {
    for (const say of [
      '$240.50, review only',
      'every owner',
      'photo id',
      'plans: the wet-sealed original',
      'plans: 3 copies on ARCH D',
      'Which desk?',
      'Phone about it.',
      'Nothing may be poured yet.',
    ]) {
      expect(words).toContain(say);
    }
  });

  it('asks the office what it can answer: a question for each doubt that names its paper, no errand or entry of your own', () => {
    const about = 'The desk asks for it at "Apply".';
    const plan = planOf({
      papers: { deed: {} },
      errand: { ask: ['Which desk?'] },
      findings: [
        missingFinding('deed', { weight: 'ask first', remedy: { say: 'Go on "Ask for the deed".' } }),
        missingFinding('deed', { weight: 'ask first', sort: 'may not apply', why: about }),
        missingFinding('deed', {
          weight: 'ask first',
          sort: 'event missing',
          remedy: { say: 'Note it with its day.' },
        }),
        missingFinding('deed', {
          weight: 'ask first',
          sort: 'fact missing',
          remedy: { say: 'Look at the paper and enter it.' },
        }),
        missingFinding('deed', { weight: 'ask first', sort: 'disagree', remedy: { say: 'Look at the paper.' } }),
      ],
    });
    const told = writtenWords(assembled(plan, 'errand sheet')[0]);
    const asked = told.slice(told.indexOf('To ask, or to phone about first'));
    expect(asked).toContain('Which desk?');
    expect(asked).toContain('Do you ask for "deed" here?');
    expect(asked).toContain('Is "deed" asked for on a lot like mine?');
    expect(asked).not.toMatch(/Go on|Note it|Is this|Look at the paper/);
  });

  it('says whom to send the files to where they go by wire, whom to go to where not', () => {
    const shaped = (way: 'e-mail' | 'counter'): string =>
      writtenWords(
        assembled(planOf({ papers: { deed: {} }, errand: { deliver: { ...delivery, way } } }), 'errand sheet')[0],
      );
    expect(shaped('e-mail')).toContain('send to Plan Review');
    expect(shaped('e-mail')).not.toContain('go to');
    expect(shaped('counter')).toContain('go to Plan Review');
  });

  it('is all there is where an errand takes no papers along', () => {
    const files = planOf({ papers: {}, needs: [] }).files;
    expect(files.map((file) => file.of === 'assembled' && file.sort)).toEqual(['errand sheet']);
    expect(writtenWords(assembled(planOf({ papers: {}, needs: [] }), 'errand sheet')[0])).not.toMatch(
      /To print|To send/,
    );
  });

  it('says on a draft when one could go at the earliest, not today', () => {
    const plan = planOf({ papers: { deed: 'missing' }, firstDay: '2026-05-11' });
    expect(writtenWords(assembled(plan, 'errand sheet')[0])).toContain('on Mon 11 May 2026 at the earliest');
  });

  // Fixed bug: what lay with them was told as if it had to be booked and begun.
  it('says of what lies with them since when, and when an answer is due, not when they could come', () => {
    const errand = { inspection: true, onSite: ['a ladder'] };
    const told = writtenWords(
      assembled(
        planOf({ papers: { deed: {} }, errand, withThem: { since: '2026-04-01', due: '2026-04-10' } }),
        'errand sheet',
      )[0],
    );
    for (const words of [
      'since Wed 1 Apr 2026',
      'their answer was due by Fri 10 Apr 2026, 4 days late: ask after it',
    ]) {
      expect(told).toContain(words);
    }
    expect(told).not.toMatch(/at the earliest|no day is booked/);
  });

  it('begins with what they want put right, a box each; nobody goes to an inspection, they come', () => {
    const plan = planOf({
      papers: { deed: {}, plans: 'missing' },
      errand: { inspection: true, onSite: ['a ladder'], bring: ['photo id'], fee: 9000 },
      findings: [missingFinding('plans', { sort: 'not answered', say: 'Correction 3 is not answered.' })],
      trip: {
        comments: [{ number: '3', text: 'Bolt the hold-down.', due: '2026-04-20' }],
        fee: 4500,
        feeNote: 'for coming again',
        soonest: '2026-04-15',
      },
    });
    const told = writtenWords(assembled(plan, 'errand sheet')[0]);
    const order = ['To have put right', '3. Bolt the hold-down.', 'they come from', 'To have ready on the site'];
    const places = order.map((word) => told.indexOf(word));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places.every((at) => at >= 0)).toBe(true);
    expect(told).toContain('no day is booked yet; Wed 15 Apr 2026 at the earliest');
    expect(told).toContain('$45, for coming again');
    expect(told).not.toMatch(/go to|To carry|\$90|Correction 3 is not answered/);
    for (const ready of ['deed', 'photo id', 'a ladder']) expect(told).toContain(ready);
  });

  it('tells findings of one reason together, and what is only to bring among the things to carry', () => {
    const same = { why: 'The desk counts signatures.', remedy: { say: 'Sign it.' } };
    const plan = planOf({
      ...shape,
      findings: [
        missingFinding('deed', { ...same, weight: 'questioned', say: 'ONE' }),
        missingFinding('plans', { ...same, weight: 'questioned', say: 'TWO' }),
        missingFinding('plans', { weight: 'good to know', sort: 'bring', say: 'Bring: photo id.' }),
      ],
    });
    const told = writtenWords(assembled(plan, 'errand sheet')[0]);
    expect(told.match(/The desk counts/g)).toHaveLength(1);
    expect(told).toMatch(/ONE.*TWO/);
    expect(told).not.toContain('Bring: photo id.');
    expect(told).toContain('photo id');
  });

  it('names what nobody has recorded about the office yet', () => {
    expect(words).toMatch(/Not recorded yet: street, hours, papers in until, phone, payable to, how paid, appointment/);
  });

  it('is a file of its own whose sheets stand in no other file', () => {
    const plan = planOf(shape);
    for (const file of plan.files) {
      if (file.of !== 'assembled' || file.sort === 'errand sheet') continue;
      expect(writtenWords(file)).not.toContain('PRIVATE');
    }
    expect(assembled(plan, 'errand sheet')[0]?.name.startsWith('PRIVATE-')).toBe(true);
  });
});
