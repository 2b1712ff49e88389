import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WayAnswer } from '../../core/desk/contract/answers.ts';
import { addDays, asDay, type Day, daysBetween } from '../../core/vocabulary/days.ts';
import { axisOver } from '../../renderer/screens/way/axis.ts';
import { fitting, layOut } from '../../renderer/screens/way/lay-out.ts';
import { widthOf } from '../../renderer/screens/way/measures.ts';
import type { WayModel, WaySources } from '../../renderer/screens/way/model.ts';
import { modelOf } from '../../renderer/screens/way/read-way.ts';
import type { SheetPlan } from '../../renderer/screens/way/sheet-plan.ts';
import { intoRows, spread } from '../../renderer/screens/way/spread.ts';

const today = asDay('2026-04-14');
const wish = { day: 3.4, endless: false, expected: false };

/** A way of many errands, each a few days after the last, some on one day; every third waits for the one before. */
function wayOf(count: number): WayAnswer {
  const stops = Array.from({ length: count }, (_, index) => {
    const settled = index < count / 4;
    const earliest = addDays(today, Math.floor(index / 3) * 9);
    return {
      errand: `errand-${index}`,
      title: `Errand number ${index} to some office`,
      office: 'Some office',
      state: settled
        ? ('settled' as const)
        : index === Math.ceil(count / 4)
          ? ('can go' as const)
          : ("can't go yet" as const),
      earliest: settled ? undefined : earliest,
      done: settled ? undefined : addDays(earliest, 7),
      spare: 12,
      waitsFor: index > count / 2 ? [`errand-${index - 1}`] : [],
      lapsesFirst: index === count - 1 ? ['permit'] : [],
    };
  });
  const holds = [0, 1, 2].map((index) => ({
    hold: `hold-${index}`,
    event: 'poured',
    title: `Before you pour number ${index}`,
    say: 'Concrete hides what is under it.',
    waitsFor: [`Errand number ${count - 1 - index} to some office`],
    unknown: false,
  }));
  const rest = { duties: [], beginWith: [], restarts: [], feesKnown: 0, feesUnknown: 0, today: [] };
  return { day: today, stops, holds, finish: addDays(today, count * 3 + 7), ...rest };
}

function paper(
  kind: string,
  from: Day,
  through: Day | undefined,
  needs: readonly string[],
): WaySources['papers'][number] {
  return {
    row: `${kind} ${from}`,
    paper: `paper-${kind}-${from}`,
    kind,
    title: `The ${kind}`,
    office: 'Some office',
    from: 'some-office',
    sort: 'building',
    state: 'in hand',
    spent: false,
    issuedDay: from,
    goodThroughDay: through,
    needFor: needs.map((errand) => ({ errand, title: errand, open: true })),
    editions: [],
  };
}

function model(count: number): WayModel {
  const last = `errand-${count - 1}`;
  const papers = [
    paper('permit', addDays(today, -400), addDays(today, 20), [last]),
    paper('letter', addDays(today, -20), addDays(today, 40), [last]),
    paper('licence', addDays(today, -60), addDays(today, 100), []),
    paper('licence', addDays(today, -30), addDays(today, 200), []),
    paper('deed', addDays(today, -90), undefined, [last]),
  ];
  return modelOf({ way: wayOf(count), papers, practice: undefined, subjects: [], target: addDays(today, 300) });
}

/** Where everything in the row of numbers stands, with what keeps it from its neighbour. */
function rowOf({ stations, gates }: SheetPlan) {
  return [
    ...stations.map(({ x, foot }) => ({ x, foot, room: 24 })),
    ...gates.map(({ x, foot }) => ({ x, foot, room: 20 })),
  ].toSorted((a, b) => a.x - b.x);
}

describe('setting things side by side', () => {
  const places = fc
    .array(fc.integer({ min: 0, max: 900 }), { minLength: 1, maxLength: 40 })
    .map((all) => all.toSorted((a, b) => a - b));

  it('keeps them apart, in order and on the line', () => {
    fc.assert(
      fc.property(places, (wanted) => {
        const found = spread(
          wanted,
          wanted.map((_, index) => index * 24),
          [10, 2000],
        );
        found.forEach((place, index) => {
          expect(place).toBeGreaterThanOrEqual(10);
          if (index > 0) expect(place - (found[index - 1] ?? 0)).toBeGreaterThanOrEqual(24 - 1e-6);
        });
      }),
    );
  });

  it('moves them no farther than the least squares ask', () => {
    // The min-max formula of isotonic regression (Robertson, Wright and Dykstra, "Order Restricted Statistical
    // Inference", 1988, theorem 1.4.4): the k-th is the greatest over i <= k of the least over j >= k of mean(i..j).
    const mean = (all: readonly number[]): number => all.reduce((sum, each) => sum + each, 0) / all.length;
    fc.assert(
      fc.property(places, (wanted) => {
        const free = wanted.map((place, index) => place - index * 24);
        const best = free.map((_, k) =>
          Math.max(
            ...free
              .slice(0, k + 1)
              .map((_from, i) => Math.min(...free.slice(k).map((_to, j) => mean(free.slice(i, k + j + 1))))),
          ),
        );
        const found = spread(
          wanted,
          wanted.map((_, index) => index * 24),
          [-1e6, 1e6],
        );
        found.forEach((place, index) => {
          expect(place).toBeCloseTo((best[index] ?? 0) + index * 24, 6);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('puts pieces into the first row where they have room', () => {
    const pieces = [
      { from: 0, to: 50 },
      { from: 20, to: 90 },
      { from: 60, to: 70 },
      { from: 95, to: 99 },
    ];
    expect(intoRows(pieces, 5)).toEqual([0, 1, 0, 0]);
  });
});

describe('the time axis', () => {
  it('runs over whole months, and its weeks begin on Mondays', () => {
    const axis = axisOver([asDay('2026-02-11'), asDay('2027-03-12')], today);
    expect([axis.from, axis.to, axis.months.length]).toEqual(['2026-02-01', '2027-04-01', 15]);
    // ISO 8601 week date 2026-W06-1 is 2 February 2026.
    expect(axis.mondays[0]).toBe('2026-02-02');
    expect(axis.mondays.every((day) => new Date(`${day}T00:00:00Z`).getUTCDay() === 1)).toBe(true);
  });
});

describe('the sheet of the way', () => {
  it.each([8, 40, 90])('keeps the names of %i errands and the gates apart, and no two leaders cross', (count) => {
    for (const day of [0.8, 3.4, 6.6]) {
      const row = rowOf(layOut(model(count), { ...wish, day }));
      row.slice(1).forEach((one, index) => {
        const before = row[index];
        expect(one.x - (before?.x ?? 0)).toBeGreaterThanOrEqual(Math.min(one.room, before?.room ?? 0) - 1e-6);
        expect(one.foot).toBeGreaterThanOrEqual(before?.foot ?? 0);
      });
    }
  });

  it('stands every errand at its own day on the baseline', () => {
    const plan = layOut(model(40), wish);
    for (const { station, foot } of plan.stations) {
      expect(foot - plan.today).toBeCloseTo(daysBetween(today, station.at) * wish.day, 6);
    }
  });

  it('never lets two strips or their words touch in one row', () => {
    const plan = layOut(model(40), { ...wish, endless: true, expected: true });
    const rows = Map.groupBy(plan.lives, ({ y }) => y);
    for (const row of rows.values()) {
      const ends = row
        .map(({ from, to, gapTo, outside, words }) => ({ from, to: (gapTo ?? to) + (outside ? widthOf(words) : 0) }))
        .toSorted((a, b) => a.from - b.from);
      ends.slice(1).forEach((one, index) => {
        expect(one.from).toBeGreaterThan(ends[index]?.to ?? 0);
      });
    }
  });

  it('draws a paper that lapses before it is needed on to the errand that needs it', () => {
    const plan = layOut(model(40), wish);
    const permit = plan.lives.find(({ life }) => life.kind === 'permit');
    const last = plan.stations.find(({ station }) => station.row.errand === 'errand-39');
    expect(permit?.words).toBe(`The permit lapses 4 May 2026, before ${last?.station.number} can use it`);
    expect(permit?.gapTo).toBeCloseTo(last?.foot ?? 0, 6);
    expect(plan.lives.find(({ life }) => life.kind === 'letter')?.gapTo).toBeUndefined();
  });

  it('tears off what began before the sheet and leaves open what has no end', () => {
    const plan = layOut(model(40), { ...wish, endless: true });
    expect(plan.lives.find(({ life }) => life.kind === 'permit')?.torn).toBe(true);
    expect(plan.lives.find(({ life }) => life.kind === 'deed')?.open).toBe(true);
    expect(layOut(model(40), wish).lives.some(({ life }) => life.kind === 'deed')).toBe(false);
  });

  it('lets papers of one kind share a strip and names the first that ends', () => {
    const [licence, ...more] = layOut(model(40), wish).lives.filter(({ life }) => life.kind === 'licence');
    expect(more).toEqual([]);
    expect(licence?.words).toBe('The licence: 2, the first to 23 Jul 2026');
    expect(licence?.ears.length).toBe(1);
  });

  it('fits the whole way into the room there is', () => {
    for (const count of [4, 8, 20]) {
      const short = model(count);
      for (const room of [900, 1400, 2000]) {
        const { width } = layOut(short, { ...wish, day: fitting(short, room) });
        expect(width).toBeLessThanOrEqual(room);
        // And it makes use of the room: what is left over is no wider than a name.
        expect(width).toBeGreaterThan(room - 60);
      }
    }
  });

  it('numbers the errands in the order of their days', () => {
    const { stations } = model(40);
    expect(stations.map(({ number }) => number)).toEqual(stations.map((_, index) => index + 1));
    expect(stations.slice(1).every(({ at }, index) => at >= (stations[index]?.at ?? at))).toBe(true);
  });
});
