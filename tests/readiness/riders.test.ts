import { describe, expect, test } from 'vitest';
import { readErrand, ridersOf } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Edition } from '../../core/vocabulary/lot.ts';
import type { PaperKind } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice } from './making.ts';

const day = d('2026-04-14');

const permit = clocked('permit', [{ sort: 'stated' }], {
  extension: { by: 'extension', adds: { days: 90 }, times: 1, askedBeforeLapse: true },
});

function ridersUnder(rule: PaperKind, editions: readonly Edition[], others: readonly Edition[] = []) {
  const rules = practice({ papers: [rule, kind('extension')], errands: [errand('show', { needs: [need('permit')] })] });
  const view = lot({ papers: [paper('permit', editions), paper('extension', others)] });
  const asked = { practice: rules, lot: view, day };
  const reading = readErrand('show', asked).needs[0];
  const chosen = editions.find((one) => one.id === reading?.edition);
  expect(chosen === undefined ? [] : ridersOf(chosen, asked)).toEqual(reading?.riders);
  return { edition: reading?.edition, riders: reading?.riders, through: reading?.validity?.through };
}

function grant(id: string, issued: Day, extra: Partial<Edition> = {}): Edition {
  return edition(id, { issued, links: [{ word: 'extends', to: 'one' }], ...extra });
}

describe('what makes a paper good rides with it', () => {
  const one = edition('one', { issued: d('2025-10-01'), goodThrough: d('2026-03-31') });

  test('the extension that counts, and none that was asked too late, revoked, or is one too many', () => {
    expect(ridersUnder(permit, [one], [grant('x', d('2026-03-20'))])).toEqual({
      edition: 'one',
      riders: ['x'],
      through: '2026-06-29',
    });
    expect(ridersUnder(permit, [one], [grant('x', d('2026-04-02'))]).riders).toEqual([]);
    const revoked = { office: 'desk', word: 'revoked', day: d('2026-04-01') } as const;
    expect(ridersUnder(permit, [one], [grant('x', d('2026-03-20'), { standings: [revoked] })]).riders).toEqual([]);
    const two = [grant('x', d('2026-03-10')), grant('y', d('2026-03-20'))];
    expect(ridersUnder(permit, [one], two).riders).toEqual(['x']);
    expect(ridersUnder(permit, [one], [grant('later', d('2026-04-20'))]).riders).toEqual([]);
  });

  test('an extension granted before the clock it would move began anew has nothing to say any more', () => {
    const rule = clocked('permit', [{ sort: 'idle', span: { days: 90 }, since: 'inspection' }]);
    const alone = edition('one', { issued: d('2026-03-01') });
    const early = grant('x', d('2026-02-01'), { goodThrough: d('2026-05-01') });
    expect(ridersUnder(rule, [alone], [early]).riders).toEqual([]);
  });

  test('its amendments, oldest first', () => {
    const rule = clocked('permit', [{ sort: 'for good' }]);
    const change = (id: string, issued: Day): Edition =>
      edition(id, { issued, links: [{ word: 'amends', to: 'one' }] });
    const found = ridersUnder(rule, [one, change('b', d('2026-02-01')), change('a', d('2026-01-01'))]);
    expect(found).toMatchObject({ edition: 'one', riders: ['a', 'b'] });
  });

  test('the next period that carries it on, and what comes after that', () => {
    const rule = clocked('permit', [{ sort: 'stated' }]);
    const first = edition('one', { issued: d('2025-05-01'), goodThrough: d('2026-04-30') });
    const next = (id: string, to: string, from: Day, goodThrough: Day): Edition =>
      edition(id, { issued: d('2026-04-01'), effective: from, goodThrough, links: [{ word: 'continues', to }] });
    const second = next('two', 'one', d('2026-05-01'), d('2026-10-31'));
    const third = next('three', 'two', d('2026-11-01'), d('2027-04-30'));
    expect(ridersUnder(rule, [first, second, third])).toEqual({
      edition: 'one',
      riders: ['two', 'three'],
      through: '2027-04-30',
    });
    const gap = next('two', 'one', d('2026-05-03'), d('2026-10-31'));
    expect(ridersUnder(rule, [first, gap])).toMatchObject({ riders: [], through: '2026-04-30' });
  });

  test('nothing for a paper that stands by itself', () => {
    expect(ridersUnder(permit, [{ ...one, goodThrough: d('2026-12-31') }]).riders).toEqual([]);
  });
});
