import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { figures } from '../../core/figures/index.ts';
import { checkPractice, officeWord, readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { commonLayers, errandOf, inOneLine, needOf, under } from './common-layers.ts';

const practice = readPractice(commonLayers);
const brindlemoor = {
  name: 'brindlemoor.yaml',
  text: readFileSync(join(import.meta.dirname, '..', '..', 'sample-project', 'practice', 'brindlemoor.yaml'), 'utf8'),
};

/** Errands that have to be settled before this one, through everything it needs. */
function leadsTo(errand: string, from: Practice, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(errand)) return seen;
  seen.add(errand);
  const { needs, before } = errandOf(from, errand);
  const kinds = needs.flatMap((need) => need.kinds);
  const yielding = Object.values(from.errands).filter((one) => one.yields.some((kind) => kinds.includes(kind)));
  for (const one of yielding) leadsTo(one.id, from, seen);
  for (const { after } of before) if ('errand' in after) leadsTo(after.errand, from, seen);
  return seen;
}

describe('common practice of a rural county', () => {
  it('has no mistake, and names only figures that exist', () => {
    expect(checkPractice(commonLayers, { figures: Object.keys(figures) }).problems).toEqual([]);
  });

  it('is common practice, but for federal rules that hold everywhere and name where and when they were read', () => {
    const rules = [
      practice.offices,
      practice.papers,
      practice.errands,
      practice.agreements,
      practice.duties,
      practice.holds,
    ];
    const bases = rules.flatMap((section) => Object.values(section).map((rule) => rule.basis));
    const needs = Object.values(practice.errands).flatMap((errand) => errand.needs.map((need) => need.basis));
    const published = [...bases, ...needs].flatMap((basis) => (basis.on === 'common practice' ? [] : [basis]));
    expect(published.length).toBeGreaterThan(0);
    for (const basis of published) {
      expect(basis).toMatchObject({
        on: 'published',
        source: expect.stringMatching(/^(40 CFR|44 CFR|HUD) /),
        read: expect.stringMatching(/^2026-11-2\d$/),
      });
    }
  });

  it('asks ten questions first, each with why and where', () => {
    const first = Object.values(practice.questions).filter((question) => question.first);
    expect(first.map((question) => question.id)).toEqual([
      'sewage',
      'water',
      'flood_zone',
      'lender',
      'owner_builds',
      'bedrooms',
      'floor_area',
      'road',
      'power',
      'foundation',
    ]);
    for (const question of Object.values(practice.questions)) {
      expect(question.why.length, question.id).toBeGreaterThan(10);
      expect(question.where.length, question.id).toBeGreaterThan(10);
    }
  });

  it('the permit packet has its needs in the order of the packet', () => {
    expect(errandOf(practice, 'permit-apply').needs.map((need) => need.id)).toEqual([
      'application',
      'owner-builder-statement',
      'deed',
      'address-letter',
      'zoning-letter',
      'association-approval',
      'boundary-survey',
      'erosion-permit',
      'wetlands-permit',
      'plans',
      'truss-sheets',
      'energy-report',
      'septic-permit',
      'water',
      'driveway-permit',
      'flood-letter',
      'cost-breakdown',
      'builders-risk',
      'licence',
      'liability',
      'compensation',
    ]);
    expect(inOneLine(needOf(practice, 'permit-apply', 'plans'))).toBe(
      'plans, x2, on arch-d, sealed wet/digital, [scale drawn, all pages]',
    );
  });

  it('the walkthrough leads back through every inspection to the land', () => {
    const way = leadsTo('occupancy-walk', practice);
    for (const errand of [
      'soil-evaluate',
      'septic-apply',
      'permit-apply',
      'footing-inspect',
      'rough-inspect',
      'framing-inspect',
      'insulation-inspect',
      'trades-final-inspect',
      'septic-finish',
      'air-leakage-test',
    ]) {
      expect(way, errand).toContain(errand);
    }
  });

  it('turning the insurance over waits for the walkthrough', () => {
    expect(leadsTo('insurance-convert', practice)).toContain('occupancy-walk');
    expect(errandOf(practice, 'insurance-convert').caution).toContain('Never cancel the old policy');
  });

  it('inspections come in the order in which work is hidden', () => {
    // IRC R109.1.1-4 as adopted: foundation, rough trades before framing, framing before covering.
    const follows = (later: string, earlier: string): void => {
      expect(leadsTo(later, practice), `${later} after ${earlier}`).toContain(earlier);
    };
    follows('slab-inspect', 'footing-inspect');
    follows('rough-inspect', 'slab-inspect');
    follows('framing-inspect', 'rough-inspect');
    follows('insulation-inspect', 'framing-inspect');
    follows('trades-final-inspect', 'insulation-inspect');
    follows('occupancy-walk', 'trades-final-inspect');
  });

  it('what can’t be undone is held until the right errands are settled', () => {
    const until = Object.values(practice.holds).map((hold) => [hold.event, hold.until]);
    expect(Object.fromEntries(until)).toMatchObject({
      'ground-broken': ['locate-call'],
      'land-cleared': ['loan-close'],
      'concrete-poured': ['footing-inspect'],
      'slab-poured': ['termite-pretreat', 'slab-inspect'],
      'walls-covered': ['rough-inspect', 'framing-inspect', 'insulation-inspect'],
      'moved-in': ['occupancy-walk', 'insurance-convert'],
      'old-policy-ended': ['insurance-convert'],
    });
  });

  it('private papers are only asked for by name', () => {
    const hidden = Object.values(practice.papers)
      .filter((kind) => kind.private)
      .map((kind) => kind.id);
    expect(hidden).toEqual([
      'loan-commitment',
      'owner-id',
      'loan-agreement',
      'homeowners-application',
      'homestead-application',
      'permanent-loan',
    ]);
  });

  it('promises nothing in its own words', () => {
    for (const { name, text } of commonLayers) {
      expect(text, name).not.toMatch(/\b(guaranteed|certified by us|is safe|safe to)\b/i);
    }
  });
});

describe('the invented county’s amendments', () => {
  it('have no mistake over common practice', () => {
    expect(checkPractice([...commonLayers, brindlemoor], { figures: Object.keys(figures) }).problems).toEqual([]);
  });

  it('put their own rules on the county’s handout or a named person’s word', () => {
    const own = readPractice([...commonLayers, brindlemoor]);
    expect(under(own.offices, 'plan-review').basis).toEqual({
      on: 'published',
      source: 'Brindlemoor County, permit handout',
      read: '2026-01-12',
    });
    expect(needOf(own, 'permit-apply', 'septic-permit')).toMatchObject({
      basis: { on: 'the office told us', who: 'J. Tolliver' },
    });
    expect(needOf(own, 'permit-apply', 'deed').basis).toEqual({ on: 'common practice' });
    expect(under(own.offices, 'zoning').exists).toBe(false);
    const ids = errandOf(own, 'permit-apply').needs.map((need) => need.id);
    expect(ids.slice(ids.indexOf('deed'), ids.indexOf('deed') + 2)).toEqual(['deed', 'tax-receipt']);
    expect(ids).not.toContain('zoning-letter');
  });

  it('differ from common practice in at least twenty rules', () => {
    const own = readPractice([...commonLayers, brindlemoor]);
    const rules = (from: Practice): Map<string, string> =>
      new Map([
        ...Object.values(from.offices).map((rule) => [`office ${rule.id}`, JSON.stringify(rule)] as const),
        ...Object.values(from.papers).map((rule) => [`paper ${rule.id}`, JSON.stringify(rule)] as const),
        ...Object.values(from.errands).map((rule) => [`errand ${rule.id}`, JSON.stringify(rule)] as const),
      ]);
    const common = rules(practice);
    const changed = [...rules(own)].filter(([id, text]) => common.get(id) !== text).map(([id]) => id);
    expect(changed.length).toBeGreaterThanOrEqual(20);
  });

  it('the clerk’s three sets lie over the county’s two', () => {
    const word = officeWord({
      target: 'errands.permit-apply.needs.plans.copies',
      value: 3,
      who: 'R. Amsel',
      day: '2026-04-02',
    });
    const said = needOf(readPractice([...commonLayers, brindlemoor, word]), 'permit-apply', 'plans');
    expect(said).toMatchObject({ copies: 3, basis: { on: 'the office told us', who: 'R. Amsel', day: '2026-04-02' } });
  });
});

describe('the guide to writing local practice', () => {
  const guide = readFileSync(join(import.meta.dirname, '..', '..', 'templates', 'practice', 'README.md'), 'utf8');
  const examples = [...guide.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1] ?? '');

  it('has examples, and every one of them can be read over common practice', () => {
    expect(examples.length).toBeGreaterThanOrEqual(4);
    for (const text of examples) {
      expect(checkPractice([...commonLayers, { name: 'guide.yaml', text }]).problems, text).toEqual([]);
    }
  });
});
