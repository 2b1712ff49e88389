import fc from 'fast-check';
import { addDays, type Day } from '../../../core/vocabulary/days.ts';
import type { Edition, LinkWord, LotView, Paper, Visit } from '../../../core/vocabulary/lot.ts';
import { standingWords, visitStates } from '../../../core/vocabulary/lot.ts';
import type { Clock, Condition, Errand, Hold, PaperKind, Practice } from '../../../core/vocabulary/practice.ts';
import { visitOutcomes } from '../../../core/vocabulary/practice.ts';
import { common, d, errand, kind, lot, need, office, practice, told } from '../making.ts';
import type { World } from './papers-oracle.ts';

/** Small random practices and lots around one day, dense enough that most rules meet most cases. */
const today = d('2026-04-14');
const kinds = ['a', 'b', 'c', 'e'] as const;
const events = ['begun', 'changed'] as const;
const errands = ['one', 'two', 'three', 'four', 'five'] as const;

const day: fc.Arbitrary<Day> = fc.integer({ min: -400, max: 40 }).map((count) => addDays(today, count));
const span = fc.oneof(
  fc.integer({ min: 5, max: 400 }).map((days) => ({ days })),
  fc.integer({ min: 1, max: 14 }).map((months) => ({ months })),
);

function maybe<T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> {
  return fc.option(arbitrary, { nil: undefined });
}

const condition: fc.Arbitrary<Condition> = fc.oneof(
  fc.record({
    op: fc.constant('is' as const),
    question: fc.constantFrom('q', 'r'),
    values: fc.constantFrom([true], [false]),
  }),
  fc.record({ op: fc.constant('happened' as const), event: fc.constantFrom(...events) }),
  fc.record({ op: fc.constant('held' as const), kind: fc.constantFrom(...kinds) }),
);
const when: fc.Arbitrary<Condition | undefined> = fc.oneof(
  { weight: 4, arbitrary: fc.constant(undefined) },
  { weight: 1, arbitrary: condition },
  { weight: 1, arbitrary: condition.map((of): Condition => ({ op: 'not', of })) },
  { weight: 1, arbitrary: fc.tuple(condition, condition).map((of): Condition => ({ op: 'and', of })) },
  { weight: 1, arbitrary: fc.tuple(condition, condition).map((of): Condition => ({ op: 'or', of })) },
);

const label = fc.constant('a clock');
const clock: fc.Arbitrary<Clock> = fc.oneof(
  fc.record({ label, when, sort: fc.constant('stated' as const) }),
  fc.record({ label, when, sort: fc.constant('lasts' as const), span }),
  fc.record({
    label,
    when,
    sort: fc.constantFrom('start_by' as const, 'finish_by' as const),
    span,
    unless: fc.constantFrom(...events),
  }),
  fc.record({
    label,
    when,
    sort: fc.constant('idle' as const),
    span,
    since: fc.constantFrom('inspection' as const, 'approved inspection' as const),
  }),
  fc.record({ label, when, sort: fc.constant('while' as const), kind: fc.constantFrom(...kinds) }),
  fc.record({ label, when, sort: fc.constant('until' as const), event: fc.constantFrom(...events) }),
  fc.record({ label, when, sort: fc.constant('for good' as const) }),
);

function paperKind(id: string, extending: boolean): fc.Arbitrary<PaperKind> {
  return fc
    .record({
      clocks: fc.array(clock, { maxLength: 3 }),
      extension: extending
        ? maybe(
            fc.record({
              by: fc.constant('e'),
              adds: fc.constantFrom({ days: 30 }, { months: 6 }),
              times: fc.integer({ min: 1, max: 2 }),
              askedBeforeLapse: fc.boolean(),
              after: maybe(fc.constantFrom(...events)),
            }),
          )
        : fc.constant(undefined),
    })
    .map((rule) => kind(id, rule));
}

const standing = fc.record({
  office: fc.constantFrom('desk', 'other'),
  word: fc.constantFrom(...standingWords),
  day,
});

function edition(id: string, ids: readonly string[]): fc.Arbitrary<Edition> {
  const others = ids.filter((other) => other !== id);
  const words: readonly LinkWord[] = ['replaces', 'amends', 'extends', 'continues', 'made from'];
  const link = fc.record({ word: fc.constantFrom(...words), to: fc.constantFrom(...others) });
  return fc.record({
    id: fc.constant(id),
    paper: fc.constant(''),
    received: day,
    issued: fc.option(day, { nil: undefined, freq: 6 }),
    effective: fc.option(day, { nil: undefined, freq: 1 }).map((value) => value),
    goodThrough: maybe(fc.integer({ min: -60, max: 200 }).map((count) => addDays(today, count))),
    facts: maybe(fc.constantFrom('passed', 'Pass with corrections', 'Failed: no ties', 'partial', 'see remarks')).map(
      (value): Edition['facts'] => (value === undefined ? {} : { result: { sort: 'text', value } }),
    ),
    marks: fc.constant([]),
    standings: fc.oneof(
      { weight: 3, arbitrary: fc.constant([]) },
      { weight: 1, arbitrary: fc.array(standing, { maxLength: 2 }) },
    ),
    links: fc.oneof(
      { weight: 2, arbitrary: fc.constant([]) },
      { weight: 1, arbitrary: fc.array(link, { maxLength: 1 }) },
    ),
    physicalOnly: fc.constant(false),
    sealed: fc.constant(false),
    readable: fc.option(fc.constant(false), { nil: true, freq: 12 }).map((value) => value),
    pages: fc.constant(1),
    sheets: fc.constant(['letter']),
  });
}

/** Ids of editions are fixed ahead, so that links can point anywhere. */
const papers: fc.Arbitrary<Paper[]> = fc
  .array(fc.tuple(fc.constantFrom(...kinds), fc.integer({ min: 1, max: 3 })), { maxLength: 4 })
  .chain((shapes) => {
    const ids = shapes.flatMap(([, count], at) => Array.from({ length: count }, (_, n) => `p${at}-${n}`));
    if (ids.length < 2) return fc.constant([]);
    return fc.tuple(
      ...shapes.map(([kindId, count], at) =>
        fc.tuple(...Array.from({ length: count }, (_, n) => edition(`p${at}-${n}`, ids))).map(
          (editions): Paper => ({
            id: `p${at}`,
            kind: kindId,
            title: kindId,
            editions: editions.map((one) => ({ ...one, paper: `p${at}` })),
          }),
        ),
      ),
    );
  });

const visits: fc.Arbitrary<Visit[]> = fc.array(
  fc.record({
    id: fc.uuid(),
    errand: fc.constantFrom(...errands),
    day,
    state: fc.constantFrom(...visitStates),
    outcome: maybe(fc.constantFrom(...visitOutcomes)),
  }),
  { maxLength: 4 },
);

const answer = fc.constantFrom(
  { sort: 'yes or no', value: true } as const,
  { sort: 'yes or no', value: false } as const,
  { sort: "don't know yet" } as const,
);

const lotView: fc.Arbitrary<LotView> = fc
  .record({
    answers: fc.record({ q: answer, r: answer }),
    events: fc.array(fc.record({ event: fc.constantFrom(...events), day }), { maxLength: 2 }),
    papers,
    visits,
  })
  .map((parts) => lot(parts));

const anyNeed = fc
  .record({
    kinds: fc.uniqueArray(fc.constantFrom(...kinds), { minLength: 1, maxLength: 2 }),
    when,
    optional: fc.option(fc.constant(true), { nil: false, freq: 6 }).map((value) => value),
    use: fc.constantFrom('leave' as const, 'show' as const, 'leave' as const, 'bring home' as const),
    goodFor: maybe(fc.integer({ min: 1, max: 60 }).map((days) => ({ days }))),
    fresh: maybe(fc.integer({ min: 10, max: 300 }).map((days) => ({ days }))),
    basis: fc.constantFrom(common, told),
  })
  .map((parts) => need(parts.kinds.join('-'), parts));

const lead = maybe(
  fc
    .oneof(
      fc.integer({ min: 0, max: 20 }).map((days) => ({ days })),
      fc.integer({ min: 1, max: 15 }).map((workingDays) => ({ workingDays })),
    )
    .map((to) => ({ from: {}, to })),
);

function anyErrand(id: string, earlier: readonly string[]): fc.Arbitrary<Errand> {
  const after = fc.oneof(
    fc.constantFrom(...events).map((event) => ({ event })),
    fc.constantFrom(...(earlier.length === 0 ? errands : earlier)).map((errandId) => ({ errand: errandId })),
  );
  return fc
    .record({
      office: fc.constantFrom('desk', 'desk', 'desk', 'gone'),
      when,
      inspection: fc.boolean(),
      restarts: fc.subarray([...kinds], { maxLength: 2 }),
      takes: lead,
      needs: fc.array(anyNeed, { maxLength: 2 }),
      before: fc.array(fc.record({ id: fc.constant('x'), after, when, basis: fc.constantFrom(common, told) }), {
        maxLength: 1,
      }),
      yields: fc.subarray([...kinds], { maxLength: 1 }),
      causes: fc.subarray([...events], { maxLength: 1 }),
    })
    .map((parts) => errand(id, parts));
}

const hold: fc.Arbitrary<Hold> = fc.record({
  id: fc.constant('h'),
  title: fc.constant('Before it'),
  event: fc.constantFrom(...events),
  until: fc.subarray([...errands], { minLength: 1, maxLength: 2 }),
  when,
  say: fc.constant('It hides things.'),
  basis: fc.constantFrom(common, told),
});

function anyPractice(extending: boolean): fc.Arbitrary<Practice> {
  return fc
    .record({
      papers: fc.tuple(...kinds.map((id) => paperKind(id, extending))),
      errands: fc.tuple(...errands.map((id, at) => anyErrand(id, errands.slice(0, at)))),
      holds: fc.array(hold, { maxLength: 1 }),
      holidays: fc.constantFrom([], [d('2026-04-15'), d('2026-05-25')]),
    })
    .map((parts) => practice({ ...parts, offices: [office('desk'), office('gone', { exists: false })] }));
}

/** @param extending whether kinds may be extended (the oracle dates no errand that asks for an extension). */
export function anyWorld(extending: boolean): fc.Arbitrary<World> {
  return fc.record({ practice: anyPractice(extending), lot: lotView, day: fc.constantFrom(today, d('2026-04-11')) });
}
