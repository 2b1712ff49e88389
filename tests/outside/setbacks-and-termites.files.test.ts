import { describe, expect, test } from 'vitest';
import { checkPractice } from '../../core/practice/index.ts';
import { readAgreements, readErrand } from '../../core/readiness/index.ts';
import type { FactValue } from '../../core/vocabulary/facts.ts';
import { amended, commonLayers, errandOf, needOf, paperOf } from '../practice/common-layers.ts';
import { d, edition, lot, paper } from '../readiness/making.ts';

/** Feet between a septic system and other things, as four places publish them: the least that is allowed. */
const places = {
  // lawserver.com, Florida 62-6.005; property line and water from experts123.com and swflphcc.org.
  Florida: { well_to_tank: 75, well_to_field: 75, line_to_field: 5, house_to_field: 5, water_to_field: 75 },
  // edcgov.us, septic system minimum setback requirements.
  'El Dorado, California': {
    well_to_tank: 100,
    well_to_field: 100,
    line_to_tank: 5,
    line_to_field: 10,
    house_to_tank: 5,
    house_to_field: 10,
    water_to_tank: 50,
    water_to_field: 100,
  },
  // washtenaw.org 1646, minimum isolation distances.
  'Washtenaw, Michigan': {
    well_to_tank: 50,
    well_to_field: 100,
    line_to_tank: 10,
    line_to_field: 10,
    house_to_tank: 5,
    house_to_field: 10,
    water_to_tank: 25,
    water_to_field: 50,
  },
  // town.rock-river.wy.us FAQ 123 (line 10 before 1997; house 25 with a foundation drain).
  'Rock River, Wyoming': {
    well_to_tank: 50,
    well_to_field: 100,
    line_to_tank: 50,
    line_to_field: 50,
    house_to_tank: 5,
    house_to_field: 10,
    water_to_tank: 50,
    water_to_field: 50,
  },
} as const;

const distances = ['well', 'line', 'house', 'water'].flatMap((from) => [`${from}_to_tank`, `${from}_to_field`]);

/** A place's setbacks as it would write them: facts of the survey, each at least so many feet. */
function withSetbacks(least: Readonly<Record<string, number>>) {
  const facts = distances.map((one) => `      ${one}: length\n`).join('');
  const rules = Object.entries(least)
    .map(([fact, feet]) => `  ${fact}: { say: ${fact}, at_least: [boundary-survey.${fact}, ${feet}] }\n`)
    .join('');
  return amended(`papers:\n  boundary-survey:\n    facts:\n${facts}agreements:\n${rules}`);
}

function broken(place: keyof typeof places, measured: Readonly<Record<string, number>>): readonly string[] {
  const facts = Object.fromEntries(
    Object.entries(measured).map(([id, value]): [string, FactValue] => [id, { sort: 'length', value }]),
  );
  const view = lot({ papers: [paper('boundary-survey', [edition('s', { issued: d('2026-03-02'), facts })])] });
  const found = readAgreements({ practice: withSetbacks(places[place]), lot: view, day: d('2026-04-14') });
  return found.flatMap(({ agreement, sort }) =>
    sort === 'disagree' && agreement !== undefined && distances.includes(agreement) ? [agreement] : [],
  );
}

describe('septic setbacks, said as agreements over the survey', () => {
  const drawn = {
    well_to_tank: 75,
    well_to_field: 100,
    line_to_tank: 10,
    line_to_field: 10,
    house_to_tank: 5,
    house_to_field: 10,
    water_to_tank: 50,
    water_to_field: 75,
  };

  test('one drawing passes in one place and fails in the next', () => {
    expect(broken('Florida', drawn)).toEqual([]);
    expect(broken('El Dorado, California', drawn)).toEqual(['well_to_tank', 'water_to_field']);
    expect(broken('Washtenaw, Michigan', drawn)).toEqual([]);
    expect(broken('Rock River, Wyoming', drawn)).toEqual(['line_to_tank', 'line_to_field']);
  });

  test('the very distance is enough, and a tenth of a foot less is not', () => {
    expect(broken('Florida', { ...drawn, well_to_field: 75 })).toEqual([]);
    expect(broken('Florida', { ...drawn, well_to_field: 74.9 })).toEqual(['well_to_field']);
  });
});

const termites = `title: Termite rules
basis: { published: "FBC-R R318.1; VA circular of 2014", read: 2026-11-24 }
questions:
  termite_method:
    ask: How is the house kept from termites?
    sort: choice
    choices: [soil treatment, bait, treated lumber]
    why: Lender and official want other papers for each.
    where: The termite company, or the lumber yard.
papers:
  bait-contract: { from: termite-company, brought: yes, good: { until: { event: house-complete, plus: 5 years } } }
  termite-final: { looks_like: [complete treatment, prevention, subterranean termites] }
errands:
  slab-inspect:
    needs:
      bait-contract: { when: { termite_method: bait }, marks: [signed] }
  loan-convert:
    needs:
      termite-guarantee: { optional: no }
      termite-service-record: { optional: no, unless: { termite_method: treated lumber } }
      deed: { when: federal-loan }
`;

describe('termite papers as publishers want them', () => {
  const rules = amended(termites, 'termites.yaml');

  test('a treated house needs the company’s record beside the builder’s guarantee, pressure-treated lumber does not', () => {
    // VA circular 2014, vanewsblog.com; HUD KA-04071 (forms 99-A and 99-B).
    const wanted = (method: string): readonly string[] => {
      const answers = {
        lender: { sort: 'yes or no', value: true },
        loan_program: { sort: 'choice', value: 'VA' },
        termite_method: { sort: 'choice', value: method },
      } as const;
      const { needs } = readErrand('loan-convert', { practice: rules, lot: lot({ answers }), day: d('2027-03-01') });
      return needs
        .filter(({ kind, applies }) => applies === true && kind.startsWith('termite-'))
        .map(({ kind }) => kind);
    };
    expect(new Set(wanted('soil treatment'))).toEqual(new Set(['termite-guarantee', 'termite-service-record']));
    expect(wanted('treated lumber')).toEqual(['termite-guarantee']);
  });

  test('a bait contract is handed in before the slab and runs five years from the certificate', () => {
    // FBC-R R318.1, howtolookatahouse.com, January 2022.
    expect(needOf(rules, 'slab-inspect', 'bait-contract').when).toMatchObject({ question: 'termite_method' });
    expect(paperOf(rules, 'bait-contract').clocks).toMatchObject([{ sort: 'until', plus: { years: 5 } }]);
  });

  test('the certificate is known by the words the code asks for', () => {
    // Words to look for: complete treatment, prevention, subterranean termites (FBC-R R318.1).
    expect(paperOf(rules, 'termite-final').looksLike).toEqual([
      'complete treatment',
      'prevention',
      'subterranean termites',
    ]);
    expect(paperOf(amended(''), 'termite-final').looksLike).toContain('subterranean termites');
  });

  test('the treatment comes before the slab, the final exterior one at the end, and disturbed soil is treated again', () => {
    // Stages: FBC 104.2.6 of 2002, online.flipbuilder.com qawr/oiuo.
    const { papers, errands } = amended('');
    expect(errands['slab-inspect']?.needs.some(({ id }) => id === 'termite-pretreatment')).toBe(true);
    expect(errandOf(amended(''), 'occupancy-walk').needs.some(({ id }) => id === 'termite-final')).toBe(true);
    expect(papers['termite-pretreatment']?.clocks).toMatchObject([{ sort: 'until', event: 'treated-soil-disturbed' }]);
  });
});

describe('an energy certificate as Minnesota wants it', () => {
  test('can be said: posted at the panel, with date, address, who built, values and test results', () => {
    // MN Rule 1322.0401, global-regulation.com; the 2009 form: professionalinspector.com.
    const text = `errands:
  occupancy-walk:
    needs:
      energy-certificate:
        marks: [posted at the panel, date posted, "name of the builder, or of the homeowner as general contractor",
          predominant R-values, window U and SHGC, equipment efficiencies, duct and envelope test results, ventilation system]
        facts: [address, air_changes]
`;
    expect(checkPractice([...commonLayers, { name: 'mn.yaml', text }]).problems).toEqual([]);
    expect(needOf(amended(text), 'occupancy-walk', 'energy-certificate').marks).toHaveLength(8);
  });
});
