import { expect, it } from 'vitest';
import type { Day } from '../../core/vocabulary/days.ts';
import { arrange } from '../../renderer/screens/papers/arrange-papers.ts';
import { livesOf } from '../../renderer/screens/way/lives.ts';
import type { Life, WaySources } from '../../renderer/screens/way/model.ts';

type Row = WaySources['papers'][number];

const binder: Row = {
  row: 'binder',
  paper: 'p-1',
  kind: 'builders-risk-binder',
  title: "Builder's risk binder",
  office: 'Insurance agent',
  from: 'insurer',
  sort: 'insurer',
  state: 'in hand',
  spent: false,
  inForceDay: '2026-11-15',
  goodThroughDay: '2026-12-15',
  needFor: [],
  editions: [],
};
const own: Row = { ...binder, row: 'letter', paper: 'p-2', kind: 'other', title: 'Letter of the power company' };

function lives(day: Day, papers: readonly Row[]): readonly Life[] {
  const way: WaySources['way'] = {
    day,
    stops: [],
    duties: [],
    today: [],
    feesKnown: 0,
    feesUnknown: 0,
    restarts: [],
    holds: [],
    beginWith: [],
  };
  return livesOf({ way, papers, practice: undefined, subjects: [], target: undefined }, []);
}

const titles = (day: Day, papers: readonly Row[]): readonly string[] => lives(day, papers).map(({ title }) => title);

// Fixed bug: a binder that bears no day of issue was missing from the drawing of the way, though next to lapse.
it('a paper that bears only the day it is in force from has its life drawn, and stands under that month', () => {
  expect(titles('2026-11-30', [binder])).toEqual(["Builder's risk binder"]);
  expect(lives('2026-11-10', [binder])[0]).toMatchObject({
    expected: false,
    from: '2026-11-15',
    through: '2026-12-15',
  });
  expect(arrange([binder], 'by date').map(({ title }) => title)).toEqual(['November 2026']);
});

// Fixed bug: what the owner gave a title of its own lapsed unseen.
it('a paper no rule knows has a strip where it has a last good day, and none without', () => {
  expect(titles('2026-11-30', [own])).toEqual(['Letter of the power company']);
  expect(titles('2026-11-30', [{ ...own, goodThroughDay: undefined }])).toEqual([]);
});
