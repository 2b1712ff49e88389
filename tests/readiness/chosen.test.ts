import { describe, expect, test } from 'vitest';
import { readChosen } from '../../core/readiness/index.ts';
import type { Edition, StandingWord } from '../../core/vocabulary/lot.ts';
import type { PaperKind } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, kind, lot, paper, practice } from './making.ts';

const day = d('2026-04-14');
const issued = d('2026-01-05');

const permit = clocked('permit', [{ sort: 'stated' }], {
  extension: { by: 'extension', adds: { days: 90 }, times: 1, askedBeforeLapse: true },
});
const kinds = [
  permit,
  kind('extension'),
  kind('plans'),
  kind('trusses', { madeFrom: ['plans'] }),
  kind('id', { private: true }),
];

function told(
  chosen: readonly string[],
  papers: Readonly<Record<string, readonly Edition[]>>,
  own: readonly PaperKind[] = kinds,
) {
  const view = lot({ papers: Object.entries(papers).map(([id, editions]) => paper(id, editions)) });
  return readChosen(chosen, { practice: practice({ papers: own }), lot: view, day });
}

const brief = (findings: ReturnType<typeof told>) =>
  findings.map(({ edition: id, sort, weight }) => [id, sort, weight]);
const good = edition('p', { issued, goodThrough: d('2026-12-31') });

describe('papers of the owner’s own choosing', () => {
  test('that are good, and anything the lot does not hold, find nothing', () => {
    expect(told(['p', 'gone'], { permit: [good] })).toEqual([]);
  });

  test('that lapsed, lapse soon, or have no date to tell by', () => {
    const until = (goodThrough?: Edition['goodThrough']) =>
      told(['p'], { permit: [edition('p', { issued, goodThrough })] });
    expect(brief(until(d('2026-04-13')))).toEqual([['p', 'lapsed', 'questioned']]);
    expect(until(d('2026-04-13'))[0]?.say).toContain('lapsed after 13 Apr 2026');
    expect(brief(until(d('2026-04-30')))).toEqual([['p', 'lapsing', 'good to know']]);
    expect(brief(until())).toEqual([['p', 'date unknown', 'ask first']]);
  });

  test.each(['refused', 'revoked'] as const)('that an office %s', (word: StandingWord) => {
    const standings = [{ office: 'desk', word, day: d('2026-02-03') }];
    const [found, ...more] = told(['p'], { permit: [{ ...good, standings }] });
    expect(more).toEqual([]);
    expect(found).toMatchObject({ sort: 'refused by office', weight: 'questioned', basis: { on: 'common practice' } });
    expect(found?.say).toContain(`${word} it on 3 Feb 2026`);
  });

  test('that a newer edition replaced, by its link or by coming after it', () => {
    const older = edition('a', { issued, revision: 'A' });
    const newer = edition('b', { issued: d('2026-03-02'), revision: 'B' });
    expect(told(['a'], { plans: [older, newer] })[0]).toMatchObject({
      sort: 'replaced',
      say: '"The plans" of 5 Jan 2026 was replaced by revision B of 2 Mar 2026.',
    });
    expect(brief(told(['b'], { plans: [older, newer] }))).toEqual([]);
    const link = { word: 'replaces', to: 'a' } as const;
    expect(brief(told(['a'], { plans: [older], other: [edition('c', { issued, links: [link] })] }))).toEqual([
      ['a', 'replaced', 'questioned'],
    ]);
  });

  test('that were made from what has been replaced', () => {
    const plans = [
      edition('a', { issued }),
      edition('b', { issued: d('2026-03-02'), links: [{ word: 'replaces', to: 'a' }] }),
    ];
    const trusses = edition('t', { issued, links: [{ word: 'made from', to: 'a' }] });
    expect(brief(told(['t'], { plans, trusses: [trusses] }))).toEqual([['t', 'stale', 'questioned']]);
    expect(brief(told(['t'], { plans, trusses: [{ ...trusses, links: [] }] }))).toEqual([['t', 'stale', 'ask first']]);
  });

  test('that can not be read, are private, are not there yet or not yet in force', () => {
    expect(brief(told(['p'], { permit: [{ ...good, readable: false }] }))).toEqual([['p', 'unreadable', 'questioned']]);
    expect(brief(told(['i'], { id: [edition('i', { issued })] }))).toEqual([['i', 'caution', 'good to know']]);
    const later = edition('p', { issued: d('2026-04-20'), goodThrough: d('2026-12-31') });
    expect(brief(told(['p'], { permit: [later] }))).toEqual([['p', 'not issued yet', 'questioned']]);
    expect(brief(told(['p'], { permit: [{ ...good, effective: d('2026-05-01') }] }))).toEqual([
      ['p', 'too early', 'good to know'],
    ]);
  });

  test('that are good only with an extension which is not chosen', () => {
    const short = edition('p', { issued: d('2025-10-01'), goodThrough: d('2026-03-31') });
    const grant = edition('x', { issued: d('2026-03-20'), links: [{ word: 'extends', to: 'p' }] });
    const papers = { permit: [short], extension: [grant] };
    expect(brief(told(['p'], papers))).toEqual([['p', 'missing', 'questioned']]);
    expect(brief(told(['p', 'x'], papers))).toEqual([]);
  });

  test('are told heaviest first, each once, and nothing is ever refused', () => {
    const papers = {
      id: [edition('i', { issued })],
      permit: [edition('p', { issued, goodThrough: d('2026-02-01') })],
    };
    expect(brief(told(['i', 'p', 'i'], papers))).toEqual([
      ['p', 'lapsed', 'questioned'],
      ['i', 'caution', 'good to know'],
    ]);
  });
});
