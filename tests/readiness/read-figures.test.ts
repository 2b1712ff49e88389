import { describe, expect, test } from 'vitest';
import { type FigureReading, readFigures } from '../../core/readiness/index.ts';
import type { FactValue } from '../../core/vocabulary/facts.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { common, d, edition, kind, lot, paper, practice } from './making.ts';

const day = d('2026-04-14');

function number(value: number): FactValue {
  return { sort: 'number', value };
}

function read(of: string, facts: Readonly<Record<string, FactValue>>, rules?: Practice): readonly FigureReading[] {
  const one = edition('e', { facts });
  const view = lot({ papers: [paper(of, [one])] });
  const known = rules ?? practice({ papers: [kind(of)] });
  return readFigures({ practice: known, lot: view, day }, { kind: of, edition: view.papers[0]?.editions[0] });
}

function named(readings: readonly FigureReading[], id: string): FigureReading {
  const found = readings.find(({ figure }) => figure.id === id);
  if (found === undefined) throw new Error(`No ${id}.`);
  return found;
}

describe('figures of a paper', () => {
  test('the tester’s air changes agree with fan flow and volume on the same report', () => {
    // energyconservatory.com: 1,000 cfm in 30 x 40 x 8 feet are 6.25 air changes.
    const facts = {
      fan_flow: { sort: 'flow', value: 1000 },
      house_volume: { sort: 'volume', value: 9600 },
      air_changes: number(6.3),
    } as const;
    const air = named(read('air-leakage-report', facts), 'air_changes');
    expect(air.value).toEqual(number(6.25));
    expect(air.printed).toMatchObject([{ agrees: true, edition: 'e' }]);
    expect(air.unusual).toBe(false);
    const misprinted = named(read('air-leakage-report', { ...facts, air_changes: number(5.26) }), 'air_changes');
    expect(misprinted.printed).toMatchObject([{ agrees: false }]);
  });

  test('a volume with a digit lost is told as unusual, and so is what comes of it', () => {
    const facts = { fan_flow: { sort: 'flow', value: 1000 }, house_volume: { sort: 'volume', value: 960 } } as const;
    const air = named(read('air-leakage-report', facts), 'air_changes');
    expect(air.parts.filter(({ unusual }) => unusual).map(({ name }) => name)).toEqual(['volume']);
    expect(air.unusual).toBe(true);
  });

  test('a percolation sheet that averages agrees by the mean, and the reading by the last drop says so', () => {
    // City of Orono, Minnesota, record 128347: 3, 2-7/8, 2-7/8 inches in 30 minutes, printed 10.3.
    const facts = {
      interval: number(30),
      first_drop: number(3),
      second_drop: number(2.875),
      third_drop: number(2.875),
      rate: number(10.3),
    };
    const readings = read('soil-evaluation', facts);
    expect(named(readings, 'percolation_mean')).toMatchObject({ printed: [{ agrees: true }], agreesOtherWay: false });
    expect(named(readings, 'percolation_rate')).toMatchObject({ printed: [{ agrees: false }], agreesOtherWay: true });
  });

  test('compaction just under 95 does not meet it, and is never rounded up to it', () => {
    // Reference value 4.11, computed: 113.9 of 120.0 is 94.92 %.
    const facts = {
      wet_density: number(113.9),
      moisture: { sort: 'percent', value: 0 },
      greatest_density: number(120),
    } as const;
    const soil = named(read('footing-result', facts), 'compaction');
    expect(soil.value?.value).toBeCloseTo(94.9167, 4);
    expect(soil.limits).toMatchObject([{ least: 95, within: false }]);
  });

  test('a rule that compares it is told with what it comes to; across datums nobody compares', () => {
    const rule = {
      id: 'floor',
      say: 'The lowest floor has to reach base flood level and freeboard',
      verb: 'at_least',
      terms: [
        { of: 'paper', kind: 'elevation-certificate', fact: 'lowest_floor' },
        { of: 'figure', figure: 'freeboard_level' },
      ],
      basis: common,
    } as const;
    const rules = practice({ papers: [kind('elevation-certificate')], agreements: [rule] });
    const at = (floor: number, datum: string): FigureReading => {
      const view = lot({
        answers: {
          base_flood_level: { sort: 'elevation', value: { feet: 8, datum: 'NAVD 88' } },
          freeboard: { sort: 'length', value: 1 },
        },
        papers: [
          paper('elevation-certificate', [
            edition('e', { facts: { lowest_floor: { sort: 'elevation', value: { feet: floor, datum } } } }),
          ]),
        ],
      });
      const [first] = view.papers[0]?.editions ?? [];
      return named(
        readFigures({ practice: rules, lot: view, day }, { kind: 'elevation-certificate', edition: first }),
        'freeboard_level',
      );
    };
    // Reference value 5.14: base 8.0 with a foot of freeboard; 8.9 fails, 9.0 passes.
    expect(at(8.9, 'NAVD 88').rules[0]?.outcome.is).toBe('broken');
    expect(at(9, 'NAVD 88').rules[0]?.outcome.is).toBe('holds');
    expect(at(9, 'NGVD 29').rules[0]?.outcome.is).toBe('unknown');
  });

  test('what nothing is compared with is not reckoned: nobody designs with it', () => {
    const plans = read('plans', { bedrooms: { sort: 'count', value: 3 }, floor_area: { sort: 'area', value: 1850 } });
    expect(plans.map(({ figure }) => figure.id)).toEqual([]);
  });
});
