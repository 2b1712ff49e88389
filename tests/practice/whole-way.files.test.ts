import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { figures } from '../../core/figures/index.ts';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { readErrand, readErrands, readHolds, readWay } from '../../core/readiness/index.ts';
import type { LotView } from '../../core/vocabulary/lot.ts';
import type { Errand, Practice } from '../../core/vocabulary/practice.ts';
import { amended, commonLayers, errandOf, needOf, paperOf, under } from './common-layers.ts';

const practice = readPractice(commonLayers);
const offered = Object.values(practice.offered ?? {});
const everyErrand: readonly Errand[] = [...Object.values(practice.errands), ...offered];

/** An amendment that brings in every errand that is only offered. */
const allOn = `errands:\n${offered.map(({ id }) => `  ${id}: { exists: yes }\n`).join('')}`;

const nothingAnswered: LotView = {
  title: 'Any lot',
  target: '2027-06-01',
  answers: {},
  identities: [],
  sameAs: [],
  subjects: [],
  events: [],
  papers: [],
  visits: [],
};

const brindlemoor = {
  name: 'brindlemoor.yaml',
  text: readFileSync(join(import.meta.dirname, '..', '..', 'sample-project', 'practice', 'brindlemoor.yaml'), 'utf8'),
};

describe('common practice covers the whole way', () => {
  it('from the bare land to the record a buyer asks for, in five stretches', () => {
    const stretches = new Set(everyErrand.map(({ stretch }) => stretch));
    expect(stretches).toEqual(new Set(['the land', 'before the permit', 'building', 'closing', 'after']));
  });

  it('has every errand a country house commonly meets, the usual ones on and the finer ones offered', () => {
    expect(Object.keys(practice.errands)).toEqual(
      expect.arrayContaining(
        `lot-photos-take survey-order zoning-ask flood-ask locate-call soil-evaluate septic-apply septic-extend well-apply
        well-drill water-ask driveway-apply address-apply erosion-apply wetlands-ask association-ask plans-order
        trusses-order energy-order power-apply loan-apply loan-close builders-risk-bind permit-apply comments-answer
        permit-pick-up temporary-power footing-inspect termite-pretreat slab-inspect elevation-floor rough-inspect
        framing-inspect insulation-inspect draw-ask septic-finish water-sample driveway-finish termite-finish
        air-leakage-test duct-leakage-test gas-test elevation-finish trades-final-inspect meter-set occupancy-walk
        permits-close insurance-convert loan-convert homestead-file warranty-walk termite-renew resale-ask
        record-hand-over`.split(/\s+/),
      ),
    );
    expect(new Set(offered.map(({ id }) => id))).toEqual(
      new Set(
        `soil-boring commencement-record pad-test form-board-order grounding-inspect under-slab-plumbing-inspect
        under-slab-electrical-inspect vapour-barrier-inspect water-tie-in roof-deck-inspect underlayment-inspect
        roof-covering-inspect sheathing-inspect weather-barrier-inspect openings-inspect siding-inspect
        rough-electrical-inspect rough-plumbing-inspect rough-gas-inspect rough-mechanical-inspect fire-stop-inspect
        board-inspect final-electrical-inspect final-plumbing-inspect final-mechanical-inspect final-gas-inspect
        alarms-inspect occupancy-temporary occupancy-declare`.split(/\s+/),
      ),
    );
  });

  it('every errand has questions to ask the office by telephone, a way of delivery and a title', () => {
    for (const { id, ask, title } of everyErrand) {
      expect(ask.length, id).toBeGreaterThanOrEqual(2);
      expect(title.length, id).toBeGreaterThan(8);
      for (const question of ask) expect(question, id).toMatch(/\?$/);
    }
  });

  it('every inspection says what lies ready on the site, when to book it, and whose clock it restarts', () => {
    const inspections = everyErrand.filter(({ inspection }) => inspection);
    expect(inspections.length).toBeGreaterThan(25);
    for (const { id, onSite, book, restarts, yields } of inspections) {
      expect(onSite?.length ?? 0, id).toBeGreaterThan(0);
      expect(book, id).toBeDefined();
      expect(restarts, id).toEqual(['permit-card']);
      expect(yields.length, id).toBeGreaterThan(0);
    }
  });

  it('cautions stand wherever the work can hurt someone', () => {
    const dangerous =
      `locate-call septic-finish well-drill footing-inspect rough-inspect framing-inspect temporary-power meter-set
      trades-final-inspect air-leakage-test gas-test elevation-floor insurance-convert loan-close loan-apply draw-ask
      builders-risk-bind occupancy-walk lot-photos-take roof-deck-inspect rough-gas-inspect under-slab-electrical-inspect
      commencement-record resale-ask`.split(/\s+/);
    for (const id of dangerous) {
      const errand = everyErrand.find((one) => one.id === id);
      expect(errand?.caution?.length ?? 0, id).toBeGreaterThan(30);
    }
  });

  it('all finer errands brought in at once still fit each other, with no mistake and no loop', () => {
    const layers = [...commonLayers, { name: 'all.yaml', text: allOn }];
    expect(checkPractice(layers, { figures: Object.keys(figures) }).problems).toEqual([]);
    const whole = readPractice(layers);
    expect(Object.keys(whole.errands).length).toBe(everyErrand.length);
    expect(readWay({ practice: whole, lot: nothingAnswered, day: '2026-04-14' }).stops.length).toBeGreaterThan(70);
  });

  it('roughs looked at one by one take the place of the one visit in what framing and covering wait for', () => {
    const text = `errands:
  rough-inspect: { exists: no }
  rough-electrical-inspect: { exists: yes }
  rough-plumbing-inspect: { exists: yes }
  rough-gas-inspect: { exists: yes }
  rough-mechanical-inspect: { exists: yes }
`;
    const apart = amended(text);
    expect(errandOf(apart, 'framing-inspect').needs.map(({ id }) => id)).not.toContain('rough-result');
    expect(needOf(apart, 'framing-inspect', 'rough-plumbing-result').kinds).toEqual(['rough-plumbing-result']);
    expect(under(apart.holds, 'cover').until).toEqual([
      'framing-inspect',
      'insulation-inspect',
      'rough-electrical-inspect',
      'rough-plumbing-inspect',
      'rough-gas-inspect',
      'rough-mechanical-inspect',
    ]);
  });

  it('rain on treated soil ends the treatment, so it is done again', () => {
    const clocks = paperOf(practice, 'termite-pretreatment').clocks;
    expect(clocks).toMatchObject([{ sort: 'until', event: 'treated-soil-disturbed' }]);
  });

  it('a waiver of each of the four kinds is a paper of its own, by draw or by firm', () => {
    const kinds = Object.values(practice.papers).filter(({ id }) => id.startsWith('waiver-'));
    expect(kinds.map(({ id, each }) => [id, each])).toEqual([
      ['waiver-conditional-progress', 'draw'],
      ['waiver-unconditional-progress', 'draw'],
      ['waiver-conditional-final', 'engagement'],
      ['waiver-unconditional-final', 'engagement'],
    ]);
  });

  it('the elevation certificate of the placed floor and of the finished house are two papers', () => {
    expect(needOf(practice, 'framing-inspect', 'elevation-floor').kinds).toEqual(['elevation-floor-certificate']);
    expect(needOf(practice, 'occupancy-walk', 'elevation-certificate').kinds).toEqual(['elevation-certificate']);
  });
});

describe('a lot that has answered nothing', () => {
  /** Everything refused although a question it hangs on is open: of the errand, the need, the hold. */
  function refusedOnUnknown(rules: Practice, lot: LotView): readonly string[] {
    const asked = { practice: rules, lot, day: '2026-04-14' } as const;
    const errands = Object.values(rules.errands).flatMap((errand) =>
      readErrands(errand.id, asked).flatMap(({ findings, needs }) =>
        findings
          .filter(({ weight }) => weight === 'refused')
          .filter(({ need }) => {
            if (errand.when !== undefined) return true;
            return needs.some((one) => one.need === need && one.applies === 'unknown');
          })
          .map(({ say }) => `${errand.id}: ${say}`),
      ),
    );
    const holds = readHolds(asked).flatMap(({ hold, applies, findings }) =>
      applies === 'unknown' ? findings.filter(({ weight }) => weight === 'refused').map(() => hold) : [],
    );
    return [...errands, ...holds];
  }

  it('is asked first, and nowhere refused on an answer it has not given', () => {
    expect(refusedOnUnknown(practice, nothingAnswered)).toEqual([]);
    expect(refusedOnUnknown(readPractice([...commonLayers, brindlemoor]), nothingAnswered)).toEqual([]);
  });

  it('nor once building has begun: the loan that may not be there refuses nothing', () => {
    const begun = { ...nothingAnswered, events: [{ event: 'construction-begun', day: '2026-04-01' } as const] };
    const { findings } = readErrand('loan-close', { practice, lot: begun, day: '2026-04-14' });
    expect(findings.length).toBeGreaterThan(0);
    expect(findings.filter(({ weight }) => weight === 'refused' || weight === 'questioned')).toEqual([]);
    const holds = readHolds({ practice, lot: begun, day: '2026-04-14' }).flatMap((hold) => hold.findings);
    expect(holds.map(({ errand, weight }) => [errand, weight])).toEqual([
      ['permit-pick-up', 'refused'],
      ['loan-close', 'ask first'],
    ]);
  });

  it('can begin: some errands can be gone on today, whatever is answered later', () => {
    const { today } = readWay({ practice, lot: nothingAnswered, day: '2026-04-14' });
    expect(today).toContain('lot-photos-take');
  });

  it('sees about fifty errands, not every one that could be', () => {
    const { stops } = readWay({ practice, lot: nothingAnswered, day: '2026-04-14' });
    const applying = stops.filter(({ state }) => state !== "doesn't apply");
    expect(applying.length).toBeGreaterThanOrEqual(44);
    expect(applying.length).toBeLessThanOrEqual(56);
  });
});
