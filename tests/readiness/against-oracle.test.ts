import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { currentEdition, errandState, readErrand, readWay, truthOf, validityOf } from '../../core/readiness/index.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { concerns, needMet, stateOf, wayDates } from './oracle/errands-oracle.ts';
import { allHeld, current, truth, validity, type World } from './oracle/papers-oracle.ts';
import { anyWorld } from './oracle/random-worlds.ts';

/** The fast rooms against a slow second reading of the design that shares no code with them. */
describe('random small lots, read twice', () => {
  const extending = anyWorld(true);
  const plain = anyWorld(false);

  test('every edition is good just as long as the slow reading says', () => {
    fc.assert(
      fc.property(extending, (world) => {
        for (const held of allHeld(world)) {
          const { good, through } = validityOf(held.edition, world);
          expect({ id: held.edition.id, good, through }).toEqual({ id: held.edition.id, ...validity(world, held) });
        }
      }),
      { numRuns: 1500 },
    );
  });

  test('the current edition, with or without an approval, is the same one', () => {
    fc.assert(
      fc.property(
        extending,
        fc.constantFrom('a', 'b', 'c', 'e'),
        fc.constantFrom(undefined, 'desk', 'other'),
        (world, kind, approvedBy) => {
          expect(currentEdition({ kind, approvedBy }, world)?.id).toBe(
            current(world, kind, undefined, approvedBy)?.edition.id,
          );
        },
      ),
      { numRuns: 1500 },
    );
  });

  test('conditions have the same truth', () => {
    fc.assert(
      fc.property(plain, (world) => {
        for (const errand of Object.values(world.practice.errands)) {
          if (errand.when !== undefined)
            expect(truthOf(errand.when, world.lot, world.day)).toBe(truth(world, errand.when));
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('every errand stands where the slow reading puts it, and its needs are met or not alike', () => {
    fc.assert(
      fc.property(extending, (world) => {
        for (const errand of Object.values(world.practice.errands)) {
          expect([errand.id, errandState(errand.id, world)]).toEqual([errand.id, stateOf(world, errand)]);
          compareNeeds(world, errand.id);
        }
      }),
      { numRuns: 800 },
    );
  });

  test('the way has the same dates, or the same loop', () => {
    let loops = 0;
    fc.assert(
      fc.property(plain, (world) => {
        const dates = wayDates(world);
        if (dates === 'loop') {
          loops += 1;
          expect(() => readWay(world)).toThrow(LotfileError);
          return;
        }
        for (const stop of readWay(world).stops) {
          const expected = dates.get(stop.errand);
          expect([stop.errand, stop.earliest, stop.done]).toEqual([stop.errand, expected?.earliest, expected?.done]);
        }
      }),
      { numRuns: 800 },
    );
    expect(loops).toBeGreaterThan(0);
  });
});

const cured: ReadonlySet<string> = new Set([
  'missing',
  'not issued yet',
  'lapsed',
  'lapsing',
  'too old',
  'stale',
  'unreadable',
  'refused by office',
  'replaced',
  'too early',
]);

function compareNeeds(world: World, id: string): void {
  const errand = world.practice.errands[id];
  if (errand === undefined || errandState(id, world) === "doesn't apply") return;
  const applying = errand.needs.filter((need) => truth(world, need.when) !== false);
  const readings = readErrand(id, world).needs;
  expect(readings.map((reading) => reading.need)).toEqual(applying.map((need) => need.id));
  applying.forEach((need, at) => {
    const reading = readings[at];
    if (concerns(world, errand) !== true) return;
    if (need.optional || need.use === 'bring home' || reading?.applies !== true) return;
    const met = !reading.findings.some(
      (finding) => cured.has(finding.sort) && finding.weight !== 'good to know' && finding.weight !== 'ask first',
    );
    expect([id, need.id, met]).toEqual([id, need.id, needMet(world, need)]);
  });
}
