import { describe, expect, test } from 'vitest';
import { currentEdition, indexLot, paperStateOf, truthOf, validityOf } from '../../core/readiness/index.ts';
import type { Edition, LotView } from '../../core/vocabulary/lot.ts';
import type { PaperKind } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, paper, practice, visit } from './making.ts';

const day = d('2026-04-14');

function validity(
  rule: PaperKind,
  editions: readonly Edition[],
  extra: Partial<LotView> & { readonly others?: readonly PaperKind[] } = {},
) {
  const { others = [], ...view } = extra;
  const rules = practice({ papers: [rule, ...others], errands: [errand('ask', { yields: ['extension'] })] });
  const whole = lot({ ...view, papers: [paper(rule.id, editions), ...(view.papers ?? [])] });
  const [first] = whole.papers[0]?.editions ?? [];
  if (first === undefined) throw new Error('No edition was given.');
  return validityOf(first, { practice: rules, lot: whole, day });
}

const lasting = (days: number) => clocked('permit', [{ sort: 'lasts', span: { days } }]);
const issued = d('2026-03-02');

describe('clocks together', () => {
  test('the earliest end wins and every clock keeps its label and reason', () => {
    const rule = kind('permit', {
      clocks: [
        { label: 'start', sort: 'lasts', span: { days: 90 } },
        { label: 'printed', sort: 'stated' },
      ],
    });
    const found = validity(rule, [edition('a', { issued, goodThrough: d('2026-05-01') })]);
    expect(found).toMatchObject({
      good: true,
      through: '2026-05-01',
      clocks: [
        { label: 'start', through: '2026-05-31' },
        { label: 'printed', through: '2026-05-01' },
      ],
    });
    expect(found.clocks[0]?.why).toBe('90 days from 2 Mar 2026');
  });

  test('a last day on a weekend comes with the earlier safe day, on a weekday without', () => {
    expect(validity(lasting(54), [edition('a', { issued })])).toMatchObject({
      through: '2026-04-25',
      safeThrough: '2026-04-24',
    });
    expect(validity(lasting(53), [edition('a', { issued })]).safeThrough).toBeUndefined();
  });

  test('a missing issue date that a clock needs makes it unknown, unless another clock has ended anyway', () => {
    expect(validity(lasting(90), [edition('a')])).toMatchObject({ good: 'unknown', through: 'unknown' });
    const both = clocked('permit', [{ sort: 'lasts', span: { days: 90 } }, { sort: 'stated' }]);
    expect(validity(both, [edition('a', { goodThrough: d('2026-04-13') })])).toMatchObject({
      good: false,
      through: '2026-04-13',
    });
  });

  test('a printed last day counts even where the rule forgot it', () => {
    expect(validity(kind('permit'), [edition('a', { issued, goodThrough: d('2026-04-01') })]).good).toBe(false);
  });

  test('one line of a certificate runs by the day in its own fact', () => {
    const rule = clocked('permit', [{ sort: 'stated', fact: 'liability_to' }]);
    expect(
      validity(rule, [edition('a', { issued, facts: { liability_to: { sort: 'day', value: d('2026-06-01') } } })])
        .through,
    ).toBe('2026-06-01');
    expect(validity(rule, [edition('a', { issued })]).good).toBe('unknown');
  });

  test('revoked or closed ends any clock; approved again afterwards it runs on', () => {
    const revoked = { office: 'desk', word: 'revoked', day: d('2026-03-10') } as const;
    expect(validity(lasting(90), [edition('a', { issued, standings: [revoked] })])).toMatchObject({
      good: false,
      through: 'ended',
    });
    const again = { office: 'desk', word: 'approved', day: d('2026-03-20') } as const;
    expect(validity(lasting(90), [edition('a', { issued, standings: [revoked, again] })]).good).toBe(true);
  });

  test('a clock that hangs on an unanswered question only matters once it would have ended', () => {
    const when = { op: 'is', question: 'rural', values: [true] } as const;
    const rule = (days: number) => kind('permit', { clocks: [{ label: 'x', sort: 'lasts', span: { days }, when }] });
    expect(validity(rule(90), [edition('a', { issued })]).good).toBe(true);
    expect(validity(rule(10), [edition('a', { issued })]).good).toBe('unknown');
    expect(
      validity(rule(10), [edition('a', { issued })], { answers: { rural: { sort: 'yes or no', value: false } } }).good,
    ).toBe(true);
  });
});

describe('papers that lean on papers', () => {
  test('good while the other is good, and not at all without it', () => {
    const rule = clocked('permit', [{ sort: 'while', kind: 'well' }]);
    const other = clocked('well', [{ sort: 'stated' }]);
    const well = paper('well', [edition('w', { issued, goodThrough: d('2026-05-05') })]);
    expect(validity(rule, [edition('a', { issued })], { others: [other], papers: [well] }).through).toBe('2026-05-05');
    expect(validity(rule, [edition('a', { issued })], { others: [other] })).toMatchObject({
      good: false,
      through: 'ended',
    });
  });

  test('two that lean on each other end with whichever ends first', () => {
    const rule = clocked('permit', [
      { sort: 'while', kind: 'well' },
      { sort: 'lasts', span: { days: 90 } },
    ]);
    const other = clocked('well', [
      { sort: 'while', kind: 'permit' },
      { sort: 'lasts', span: { days: 60 } },
    ]);
    const well = paper('well', [edition('w', { issued })]);
    expect(validity(rule, [edition('a', { issued })], { others: [other], papers: [well] }).through).toBe('2026-05-01');
  });

  test('a next period carries it on where there is no gap, and not over one', () => {
    const next = (start: string) =>
      edition('b', {
        issued: d('2026-04-01'),
        effective: d(start),
        goodThrough: d('2027-05-01'),
        links: [{ word: 'continues', to: 'a' }],
      });
    const rule = clocked('permit', [{ sort: 'stated' }]);
    const first = edition('a', { issued, goodThrough: d('2026-05-01') });
    expect(validity(rule, [first, next('2026-05-02')]).through).toBe('2027-05-01');
    expect(validity(rule, [first, next('2026-05-03')]).through).toBe('2026-05-01');
  });

  test('an amendment changes what it says and leaves the rest', () => {
    const rule = clocked('permit', [{ sort: 'stated' }]);
    const first = edition('a', { issued, goodThrough: d('2026-05-01') });
    const amendment = edition('b', {
      issued: d('2026-04-01'),
      goodThrough: d('2026-08-01'),
      links: [{ word: 'amends', to: 'a' }],
    });
    expect(validity(rule, [first, amendment]).through).toBe('2026-08-01');
  });
});

describe('extensions', () => {
  const rule = (times: number) => ({
    ...lasting(60),
    extension: { by: 'extension', adds: { days: 30 }, times, askedBeforeLapse: true },
  });
  const grant = (id: string, at: string, extra: Partial<Edition> = {}) =>
    edition(id, { issued: d(at), links: [{ word: 'extends', to: 'a' }], ...extra });
  const others = [kind('extension')];

  test('ask by the last open day before the end, as long as one is left', () => {
    expect(validity(rule(1), [edition('a', { issued })], { others })).toMatchObject({
      through: '2026-05-01',
      askBy: '2026-05-01',
    });
    const papers = [paper('extension', [grant('x', '2026-04-02')])];
    const once = validity(rule(1), [edition('a', { issued })], { others, papers });
    expect(once).toMatchObject({ through: '2026-05-31', askBy: undefined, safeThrough: '2026-05-29' });
  });

  test('asked for in time and granted late still counts, by the day of the visit', () => {
    const late = { issued: d('2026-01-05') };
    const papers = [paper('extension', [grant('x', '2026-03-20')])];
    expect(validity(rule(1), [edition('a', late)], { others, papers }).through).toBe('2026-03-06');
    const visits = [visit('ask', d('2026-03-02'), { state: 'left with them' })];
    expect(validity(rule(1), [edition('a', late)], { others, papers, visits }).through).toBe('2026-04-05');
  });

  test('the date an extension prints goes before our sum', () => {
    const papers = [paper('extension', [grant('x', '2026-04-02', { goodThrough: d('2026-07-31') })])];
    expect(validity(rule(1), [edition('a', { issued })], { others, papers }).through).toBe('2026-07-31');
  });
});

describe('current editions and paper states', () => {
  const rules = practice({ papers: [lasting(90)], errands: [errand('apply', { yields: ['permit'] })] });
  const state = (extra: Partial<LotView>) =>
    paperStateOf(indexLot({ practice: rules, lot: lot(extra), day }), { kind: 'permit' });

  test('an old paper kept late does not displace a newer one', () => {
    const view = lot({
      papers: [
        paper('permit', [
          edition('new', { issued }),
          edition('old', { issued: d('2025-01-05'), received: d('2026-04-01') }),
        ]),
      ],
    });
    expect(currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day })?.id).toBe('new');
  });

  test('a next period counts once it is in force', () => {
    const next = edition('next', {
      issued: d('2026-04-01'),
      effective: d('2026-05-01'),
      links: [{ word: 'continues', to: 'first' }],
    });
    const view = lot({ papers: [paper('permit', [edition('first', { issued }), next])] });
    expect(currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day })?.id).toBe('first');
    expect(currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day: d('2026-05-01') })?.id).toBe('next');
  });

  test('of two words of an office on one day the one noted later counts', () => {
    const refused = { office: 'desk', word: 'refused', day: d('2026-04-10') } as const;
    const approved = { office: 'desk', word: 'approved', day: d('2026-04-10') } as const;
    const of = (standings: Edition['standings']) =>
      lot({ papers: [paper('permit', [edition('a', { issued, standings })])] });
    const current = (view: LotView) => currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day });
    expect(current(of([refused, approved]))?.id).toBe('a');
    expect(current(of([approved, refused]))).toBeUndefined();
  });

  test('what replaced it and was refused replaced nothing', () => {
    const refused = edition('b', {
      issued: d('2026-04-01'),
      links: [{ word: 'replaces', to: 'a' }],
      standings: [{ office: 'desk', word: 'refused', day: d('2026-04-10') }],
    });
    const view = lot({ papers: [paper('permit', [edition('a', { issued }), refused])] });
    expect(currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day })?.id).toBe('a');
    expect(currentEdition({ kind: 'permit' }, { practice: rules, lot: view, day: d('2026-04-05') })?.id).toBe('b');
  });

  test('every state a paper can be in', () => {
    expect(state({})).toBe('not asked for');
    expect(state({ visits: [visit('apply', d('2026-04-01'), { state: 'left with them' })] })).toBe('awaited');
    expect(state({ papers: [paper('permit', [edition('a', { issued })])] })).toBe('in hand');
    expect(state({ papers: [paper('permit', [edition('a', { issued: d('2026-02-01') })])] })).toBe('lapsing');
    expect(state({ papers: [paper('permit', [edition('a', { issued: d('2025-12-01') })])] })).toBe('lapsed');
    expect(state({ papers: [paper('permit', [edition('a', { issued, readable: false })])] })).toBe('unreadable');
    expect(state({ papers: [paper('permit', [], { notApplicable: 'on sewer' })] })).toBe("doesn't apply");
    const away = edition('b', { issued: d('2026-04-01'), links: [{ word: 'replaces', to: 'a' }] });
    expect(state({ papers: [paper('permit', [edition('a', { issued })]), paper('other', [away])] })).toBe('replaced');
  });
});

describe('conditions', () => {
  const unknown = { op: 'is', question: 'sewage', values: ['septic'] } as const;
  const septic = lot({ answers: { sewage: { sort: 'choice', value: 'Septic' } } });

  test('an unanswered question is unknown, never false, and one false settles an "and"', () => {
    expect(truthOf(unknown, lot())).toBe('unknown');
    expect(truthOf(unknown, lot({ answers: { sewage: { sort: "don't know yet" } } }))).toBe('unknown');
    expect(truthOf(unknown, septic)).toBe(true);
    expect(truthOf({ op: 'not', of: unknown }, lot())).toBe('unknown');
    const never = { op: 'happened', event: 'poured' } as const;
    expect(truthOf({ op: 'and', of: [unknown, never] }, lot())).toBe(false);
    expect(truthOf({ op: 'or', of: [unknown, never] }, lot())).toBe('unknown');
  });

  test('over and under leave the number itself out', () => {
    const value = lot({ answers: { cost: { sort: 'money', value: 250_000 } } });
    expect(truthOf({ op: 'over', question: 'cost', value: 250_000 }, value)).toBe(false);
    expect(truthOf({ op: 'under', question: 'cost', value: 250_001 }, value)).toBe(true);
  });

  test('an event or a paper counts from its day', () => {
    const noted = lot({ events: [{ event: 'poured', day: d('2026-04-10') }] });
    expect(truthOf({ op: 'happened', event: 'poured' }, noted, d('2026-04-09'))).toBe(false);
    expect(truthOf({ op: 'happened', event: 'poured' }, noted, d('2026-04-10'))).toBe(true);
  });
});
