import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { figures } from '../../core/figures/index.ts';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { bookingDays, readErrand, readHolds, readWay } from '../../core/readiness/index.ts';
import type { Edition, LotView, Paper } from '../../core/vocabulary/lot.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { commonLayers, errandOf, needOf, paperOf, under } from './common-layers.ts';

/** Invented places beside the sample's own county: their files are read as any neighbour's would be. */
const folder = join(import.meta.dirname, '..', '..', 'sample-project', 'practice-elsewhere');

function layersOf(name: string) {
  return [...commonLayers, { name, text: readFileSync(join(folder, name), 'utf8') }];
}

const common = readPractice(commonLayers);
const marrowick = readPractice(layersOf('marrowick.yaml'));
const ostlebrook = readPractice(layersOf('ostlebrook.yaml'));
const vellow = readPractice(layersOf('vellow-reach.yaml'));

/** Rules as they come out, each office, paper, errand, need and delivery by itself. */
function rulesOf(practice: Practice): ReadonlyMap<string, string> {
  const told = (sort: string, rules: Readonly<Record<string, object>>): (readonly [string, string])[] =>
    Object.entries(rules).map(([id, rule]) => [`${sort} ${id}`, JSON.stringify(rule)] as const);
  const errands = Object.values(practice.errands).flatMap((errand) => [
    [`errand ${errand.id}`, JSON.stringify({ ...errand, needs: [], deliver: [] })] as const,
    [`delivery ${errand.id}`, JSON.stringify(errand.deliver)] as const,
    ...errand.needs.map((need) => [`need ${errand.id} ${need.id}`, JSON.stringify(need)] as const),
  ]);
  return new Map([
    ...told('office', practice.offices),
    ...told('paper', practice.papers),
    ...errands,
    ...told('agreement', practice.agreements),
    ...told('hold', practice.holds),
  ]);
}

function differences(a: Practice, b: Practice): number {
  const [one, other] = [rulesOf(a), rulesOf(b)];
  const ids = new Set([...one.keys(), ...other.keys()]);
  return [...ids].filter((id) => one.get(id) !== other.get(id)).length;
}

describe('invented counties elsewhere', () => {
  it.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
    '%s has no mistake over common practice',
    (name) => {
      expect(checkPractice(layersOf(name), { figures: Object.keys(figures) }).problems).toEqual([]);
    },
  );

  it('each differs from common practice, and from each other, in far more than twenty rules', () => {
    for (const practice of [marrowick, ostlebrook, vellow]) expect(differences(common, practice)).toBeGreaterThan(20);
    expect(differences(marrowick, ostlebrook)).toBeGreaterThan(60);
    expect(differences(marrowick, vellow)).toBeGreaterThan(60);
  });

  it('none of them makes a loop for a lot that has answered nothing', () => {
    for (const practice of [marrowick, ostlebrook, vellow])
      expect(readWay({ practice, lot: bare(), day: '2026-04-14' }).stops.length).toBeGreaterThan(40);
  });
});

function bare(more: Partial<LotView> = {}): LotView {
  const none = { answers: {}, identities: [], sameAs: [], subjects: [], events: [], papers: [], visits: [] };
  return { title: 'Any lot', target: '2027-06-01', ...none, ...more };
}

function held(kind: string, more: Partial<Edition> = {}): Paper {
  const edition: Edition = {
    id: `${kind}-1`,
    paper: kind,
    received: '2026-03-02',
    issued: '2026-03-02',
    facts: {},
    marks: [],
    standings: [],
    links: [],
    physicalOnly: false,
    sealed: false,
    readable: true,
    pages: 2,
    sheets: ['letter'],
    ...more,
  };
  return { id: kind, kind, title: kind, editions: [edition] };
}

describe('a county that takes nothing but paper', () => {
  it('asks for every paper of the permit on paper, in three sets, and sealed by hand', () => {
    const { needs, deliver } = errandOf(marrowick, 'permit-apply');
    for (const id of ['application', 'boundary-survey', 'plans', 'truss-sheets'])
      expect(needs.find((need) => need.id === id)).toMatchObject({ copies: 3, form: 'paper' });
    expect(needOf(marrowick, 'permit-apply', 'plans').seal).toEqual(['wet']);
    expect(deliver).toMatchObject({ way: 'counter', sets: 3, bookmarks: false, sealedCopy: false });
  });

  it('turns away a plan set that was sealed digitally only', () => {
    const plans = held('plans', {
      marks: ['scale drawn', 'all pages', 'every sheet signed by hand'],
      sealed: true,
      sheets: ['arch-d'],
    });
    const { findings } = readErrand('permit-apply', {
      practice: marrowick,
      lot: bare({ papers: [plans] }),
      day: '2026-04-13',
    });
    const about = findings.filter(({ kind, weight }) => kind === 'plans' && weight === 'refused');
    expect(about.map(({ say }) => say).join(' ')).toMatch(/seal|paper/i);
  });

  it('begins on a foundation permit, and frames only on the building permit', () => {
    expect(errandOf(marrowick, 'footing-inspect').before.map(({ after }) => after)).toContainEqual({
      errand: 'foundation-apply',
    });
    expect(errandOf(marrowick, 'framing-inspect').before.map(({ after }) => after)).toContainEqual({
      errand: 'permit-pick-up',
    });
  });

  it('looks at roughs and finals one by one, and nothing waits for the visits it does not make', () => {
    const ids = Object.keys(marrowick.errands);
    expect(ids).toEqual(
      expect.arrayContaining(['rough-plumbing-inspect', 'final-electrical-inspect', 'roof-deck-inspect']),
    );
    expect(ids).not.toContain('rough-inspect');
    expect(JSON.stringify([marrowick.errands, marrowick.holds])).not.toContain('"rough-result"');
    expect(under(marrowick.holds, 'cover-roof').until).toEqual(['roof-deck-inspect']);
    expect(under(marrowick.holds, 'energise').until).toEqual(['final-electrical-inspect']);
  });

  it('is booked the morning before, and says what a second trip costs', () => {
    const asked = { practice: marrowick, lot: bare(), day: '2026-05-22' } as const;
    const { book } = under(marrowick.errands, 'footing-inspect');
    if (book === undefined) throw new Error('No booking is laid down.');
    // Monday 25 May is a holiday there, so the working day after Friday is Tuesday.
    expect(bookingDays(book, undefined, asked)).toEqual({ soonest: '2026-05-26', by: '2026-05-22' });
    expect(bookingDays(book, '2026-05-30', asked)).toEqual({ soonest: '2026-06-01', by: '2026-05-29' });
    const { findings } = readErrand('footing-inspect', asked);
    const booking = findings.find(({ say }) => say.startsWith('They come on'));
    // Before the permit is in hand nobody is told to call.
    expect(booking?.say).toMatch(/at the earliest\.$/);
    expect(book.until).toBe('08:30');
    expect(booking?.why).toContain('$75');
  });
});

describe('a county that takes nothing but files', () => {
  it('has an upload with limits and names for every office that takes papers in', () => {
    for (const [id, prefix] of [
      ['septic-apply', 'SEP_'],
      ['driveway-apply', 'ACC_'],
      ['zoning-ask', 'ZON_'],
      ['permit-apply', '{n}_'],
    ] as const) {
      const { deliver } = errandOf(ostlebrook, id);
      expect(deliver, id).toMatchObject({ way: 'upload', files: 'separate files', untouched: true, cover: false });
      expect(deliver.fileName?.startsWith(prefix), id).toBe(true);
      expect(deliver.fileLimit ?? 0, id).toBeLessThanOrEqual(64_000_000);
      expect(deliver.fileNameLimit ?? 0, id).toBeLessThanOrEqual(60);
    }
  });

  it('takes digital seals only, and no paper that is held on paper alone', () => {
    expect(needOf(ostlebrook, 'permit-apply', 'plans')).toMatchObject({
      copies: 1,
      form: 'electronic',
      seal: ['digital'],
    });
    const roll = held('plans', { physicalOnly: true });
    const { findings } = readErrand('permit-apply', {
      practice: ostlebrook,
      lot: bare({ papers: [roll] }),
      day: '2026-04-14',
    });
    expect(findings.some(({ kind, weight }) => kind === 'plans' && weight === 'refused')).toBe(true);
  });

  it('gives the address during the review, and that is no loop', () => {
    expect(errandOf(ostlebrook, 'permit-apply').needs.flatMap(({ kinds }) => kinds)).not.toContain('address-letter');
    expect(errandOf(ostlebrook, 'address-apply').before.map(({ after }) => after)).toEqual([
      { errand: 'permit-apply' },
    ]);
  });

  it('has a permit that runs to a fixed end, whatever is inspected', () => {
    expect(paperOf(ostlebrook, 'permit-card').clocks.map(({ sort }) => sort)).toEqual(['start_by', 'finish_by']);
  });
});

describe('a place with no building office at all', () => {
  const asked = { practice: vellow, lot: bare(), day: '2026-04-14' } as const;

  it('has no permit, no plan review and no certificate: those errands don’t apply', () => {
    for (const id of [
      'permit-apply',
      'permit-pick-up',
      'occupancy-walk',
      'slab-inspect',
      'rough-inspect',
      'zoning-ask',
    ])
      expect(readErrand(id, asked).state, id).toBe("doesn't apply");
  });

  it('has an engineer’s letter stand where others ask for the certificate of occupancy', () => {
    expect(needOf(vellow, 'insurance-convert', 'occupancy-certificate').kinds).toEqual([
      'occupancy-certificate',
      'completion-letter',
    ]);
    const letter = held('completion-letter', {
      facts: { address: { sort: 'address', value: '12 Reach Road' } },
    });
    const { needs } = readErrand('insurance-convert', { ...asked, lot: bare({ papers: [letter] }) });
    const met = needs.find(({ need }) => need === 'occupancy-certificate');
    expect(met).toMatchObject({ kind: 'completion-letter', state: 'in hand', findings: [] });
  });

  it('asks nobody for stamped plans or a permit card', () => {
    for (const id of ['footing-inspect', 'framing-inspect', 'trades-final-inspect', 'temporary-power']) {
      const { findings } = readErrand(id, asked);
      expect(
        findings.filter(({ kind }) => kind === 'permit-card'),
        id,
      ).toEqual([]);
      expect(
        errandOf(vellow, id).needs.filter(({ approvedBy }) => approvedBy !== undefined),
        id,
      ).toEqual([]);
    }
  });

  it('still holds what can’t be undone: concrete for the report, power for the state, moving in for letter and insurer', () => {
    const holds = new Map(readHolds(asked).map((hold) => [hold.hold, hold.waitsFor]));
    expect(holds.get('pour')).toEqual(['footing-inspect']);
    expect(holds.get('energise')).toEqual(['trades-final-inspect']);
    expect(holds.get('move-in')).toEqual(['occupancy-declare', 'insurance-convert']);
    expect(holds.get('begin')).toEqual(['loan-close']);
  });
});
