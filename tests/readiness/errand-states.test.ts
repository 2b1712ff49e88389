import { describe, expect, test } from 'vitest';
import { readErrand, toldOf } from '../../core/readiness/index.ts';
import { clocked, d, edition, errand, lot, need, paper, practice, visit } from './making.ts';

const day = d('2026-04-14');

describe('errand states', () => {
  const rules = practice({
    papers: [clocked('permit', [{ sort: 'lasts', span: { days: 30 } }])],
    errands: [
      errand('apply', { yields: ['permit'] }),
      errand('frame', { inspection: true }),
      errand('use', { needs: [need('permit')] }),
    ],
  });
  const state = (id: string, extra: Parameters<typeof lot>[0]) =>
    readErrand(id, { practice: rules, lot: lot(extra), day }).state;

  test('an inspection is settled by a pass, never by a fail, a part, or nobody home', () => {
    for (const outcome of ['pass', 'pass with corrections', 'letter in lieu'] as const) {
      expect(state('frame', { visits: [visit('frame', d('2026-04-01'), { outcome })] })).toBe('settled');
    }
    for (const outcome of ['fail', 'partial', 'no access', 'cancelled'] as const) {
      expect(state('frame', { visits: [visit('frame', d('2026-04-01'), { outcome })] })).toBe('can go');
    }
    expect(state('frame', { visits: [visit('frame', d('2026-04-01'))] })).toBe('can go');
    const passed = visit('frame', d('2026-04-01'), { outcome: 'pass' });
    expect(state('frame', { visits: [passed, visit('frame', d('2026-04-08'), { outcome: 'fail' })] })).toBe('can go');
    expect(state('frame', { visits: [passed, visit('frame', d('2026-04-08'), { outcome: 'no access' })] })).toBe(
      'settled',
    );
  });

  test('a planned visit settles nothing, and one after the day asked about has not been made', () => {
    expect(state('apply', { visits: [visit('apply', d('2026-04-01'), { state: 'planned' })] })).toBe('can go');
    expect(state('apply', { visits: [visit('apply', d('2026-04-15'))] })).toBe('can go');
    expect(state('apply', { visits: [visit('apply', d('2026-04-10'), { state: 'sent back' })] })).toBe('sent back');
  });

  test('a permit that lapsed before it was used has to be fetched again; once used, never', () => {
    const permit = paper('permit', [edition('p', { issued: d('2026-01-05') })]);
    expect(state('apply', { papers: [permit], visits: [visit('apply', d('2026-01-05'))] })).toBe('can go');
    expect(
      state('apply', { papers: [permit], visits: [visit('apply', d('2026-01-05')), visit('use', d('2026-01-20'))] }),
    ).toBe('settled');
  });

  test('settled, it tells of its papers only what has lapsed since, and nothing to book or bring', () => {
    const booked = practice({
      papers: [clocked('ticket', [{ sort: 'lasts', span: { days: 15 } }]), clocked('plans', []), clocked('card', [])],
      errands: [
        errand('look', {
          yields: ['card'],
          needs: [need('ticket'), need('plans')],
          book: { ahead: { days: 2 } },
          bring: ['photo id'],
        }),
      ],
    });
    const ticket = paper('ticket', [edition('t', { issued: d('2026-03-01') })]);
    const asked = (settled: boolean) => ({
      practice: booked,
      lot: lot({ papers: [ticket], visits: settled ? [visit('look', d('2026-03-10'))] : [] }),
      day,
    });
    const sorts = (settled: boolean) => toldOf(readErrand('look', asked(settled))).findings.map(({ sort }) => sort);
    expect(sorts(true)).toEqual(['lapsed']);
    expect(new Set(sorts(false))).toEqual(new Set(['lapsed', 'missing', 'caution', 'bring']));
  });
});
