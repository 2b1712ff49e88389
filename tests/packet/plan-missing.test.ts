import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import type { PacketPlan } from '../../core/packet/plan-model.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import type { Delivery } from '../../core/vocabulary/practice.ts';
import { wordsOf } from '../typeset/written.ts';
import { delivery, evenMetrics, missingFinding, need, orderOf } from './plan-fixture.ts';
import { assembled, packetOf, planOf, sortsOf, writtenWords } from './plan-looking.ts';

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
