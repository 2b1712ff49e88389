import type { Elevation } from '../vocabulary/facts.ts';
import { type Figure, lot, numberIn, paper } from './figure.ts';

const floodCaution =
  'No flood determination: your floodplain office decides, and a surveyor or engineer certifies. Never compare elevations across datums.';

/** The level the lowest floor has to reach: base flood level plus freeboard, in the datum of the base flood level. */
export function freeboardLevel(base: Elevation, freeboard: number): Elevation | undefined {
  return freeboard >= 0 ? { feet: base.feet + freeboard, datum: base.datum } : undefined;
}

/**
 * Zone AO: highest adjacent grade + depth number + freeboard; where the map gives no depth, a least height
 * above grade (IRC 2015 R322.2.1: depth + 1 foot, or at least 3 feet).
 */
export function shallowFloodLevel(
  grade: Elevation,
  given: { readonly depth?: number | undefined; readonly freeboard: number; readonly least: number },
): Elevation {
  const above = given.depth === undefined ? given.least : given.depth + given.freeboard;
  return { feet: grade.feet + above, datum: grade.datum };
}

/** At or above? @returns 'unknown' across datums: feet of two datums are different feet. */
export function reaches(floor: Elevation, level: Elevation): boolean | 'unknown' {
  return floor.datum.trim().toUpperCase() === level.datum.trim().toUpperCase() ? floor.feet >= level.feet : 'unknown';
}

const base = [
  paper('flood-determination', 'base_flood_level'),
  paper('elevation-certificate', 'base_flood_level'),
  paper('elevation-floor-certificate', 'base_flood_level'),
  lot('base_flood_level'),
];

export const floodFigures: readonly Figure[] = [
  {
    id: 'freeboard_level',
    title: 'Level the lowest floor has to reach',
    unit: 'feet, in the datum of the base flood level',
    source: 'Base flood level + freeboard (44 CFR 60.3: + 0; IRC 2015 R322.2.1: + 1 foot; places add more)',
    caution: floodCaution,
    needs: { base, freeboard: [lot('freeboard')] },
    usual: { freeboard: [0, 6] },
    compute: (args) => {
      const feet = numberIn(args.freeboard);
      const level =
        args.base?.sort === 'elevation' && feet !== undefined ? freeboardLevel(args.base.value, feet) : undefined;
      return level === undefined ? 'unknown' : { sort: 'elevation', value: level };
    },
  },
  {
    id: 'shallow_flood_level',
    title: 'Level the lowest floor has to reach in zone AO',
    unit: 'feet, in the datum of the grade',
    source: 'IRC 2015 R322.2.1 item 2: highest adjacent grade + depth number + 1 foot, or at least 3 feet',
    caution: floodCaution,
    needs: {
      grade: [
        paper('elevation-certificate', 'highest_grade'),
        paper('elevation-floor-certificate', 'highest_grade'),
        paper('boundary-survey', 'highest_grade'),
      ],
      depth: [paper('flood-determination', 'flood_depth')],
    },
    usual: { depth: [0, 6] },
    compute: ({ grade, depth }) =>
      grade?.sort === 'elevation'
        ? {
            sort: 'elevation',
            value: shallowFloodLevel(grade.value, { depth: numberIn(depth), freeboard: 1, least: 3 }),
          }
        : 'unknown',
  },
];
