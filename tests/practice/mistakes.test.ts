import { describe, expect, it } from 'vitest';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { lineOf, smallCounty } from './small-county.ts';

/** One mistake: what to write instead of what, and the sentence with the piece whose line it must name. */
interface Mistake {
  readonly name: string;
  readonly instead: string;
  readonly write: string;
  readonly told: string;
  /** A piece of the broken text on whose line the problem must stand; the written one if not said. */
  readonly on?: string;
}

const mistakes: readonly Mistake[] = [
  {
    name: 'an unknown field',
    instead: 'copies: 2',
    write: 'copys: 2',
    told: 'need "plans" of errand "apply" knows no "copys"; did you mean "copies"?',
  },
  {
    name: 'a field far from any known one',
    instead: 'fee: 240 usd',
    write: 'weather: fine',
    told: 'errand "apply" knows no "weather".',
  },
  {
    name: 'a text with a comma outside quotes',
    instead: '{copies: 2}',
    write: '{why: Two, because they keep one}',
    told: 'A text with a comma inside {...} has to stand in quotes.',
  },
  {
    name: 'an unknown section',
    instead: 'duties:',
    write: 'dutys:',
    told: 'a practice file knows no "dutys"; did you mean "duties"?',
  },
  {
    name: 'an office that is nowhere',
    instead: 'office: health',
    write: 'office: helth',
    told: 'There is no office "helth"; did you mean "health"?',
  },
  {
    name: 'a paper that is nowhere',
    instead: 'yields: [card]',
    write: 'yields: [cards]',
    told: 'There is no paper "cards"; did you mean "card"?',
  },
  {
    name: 'an event that is nowhere',
    instead: 'to: moved-in',
    write: 'to: moved-inn',
    told: 'There is no event "moved-inn"; did you mean "moved-in"?',
  },
  {
    name: 'an errand that is nowhere',
    instead: 'until: [apply]',
    write: 'until: [aply]',
    told: 'There is no errand "aply"; did you mean "apply"?',
  },
  {
    name: 'a question that is nowhere',
    instead: '{sewage: septic}',
    write: '{sewerage: septic}',
    told: 'There is no question "sewerage"; did you mean "sewage"?',
  },
  {
    name: 'an answer nobody gives',
    instead: '{sewage: septic}',
    write: '{sewage: septik}',
    told: '"sewage" is never answered "septik" (only septic, sewer); did you mean "septic"?',
  },
  {
    name: 'a condition that is nowhere',
    instead: 'when: {sewage: septic}',
    write: 'when: bigg',
    told: 'There is no condition or question "bigg"; did you mean "big"?',
  },
  {
    name: 'more than the rule language has',
    instead: '{over: 5000}',
    write: '{above: 5000}',
    told: '"floor_area" can be "over" or "under" something, not "above".',
  },
  {
    name: 'over without a number',
    instead: '{over: 5000}',
    write: '{over: many}',
    told: '"over" needs a number, not "many".',
  },
  {
    name: 'over of a choice',
    instead: '{sewage: septic}',
    write: '{sewage: {over: 3}}',
    told: '"sewage" is answered with choice: it has no over.',
  },
  {
    name: 'money that is none',
    instead: 'floor_area: {over: 5000}',
    write: 'cost: {over: 2500}',
    told: '"over" needs an amount like "2,500 usd", not "2500".',
  },
  {
    name: 'a yes-or-no question answered otherwise',
    instead: '{sewage: septic}',
    write: '{lender: maybe}',
    told: '"lender" is answered yes or no, not "maybe".',
  },
  {
    name: 'a condition that rests on itself',
    instead: 'big: {floor_area: {over: 5000}}',
    write: 'big: [big]',
    told: 'The condition "big" rests on itself: big, big.',
  },
  {
    name: 'a bad span',
    instead: 'lasts: 18 months',
    write: 'lasts: 18 moons',
    told: '"18 moons" is no length of time; write it as "18 months" or "90 days".',
  },
  {
    name: 'a bad lead time',
    instead: '10 to 20 working days',
    write: 'a while',
    told: '"a while" is no time an office takes; write it as "10 to 20 working days", "3 weeks" or "same day".',
  },
  {
    name: 'a bad amount',
    instead: 'fee: 240 usd',
    write: 'fee: 240',
    told: '"fee" of errand "apply": "240" is no amount; write it as "240 usd" or "free".',
  },
  {
    name: 'copies that are no number',
    instead: 'copies: 2',
    write: 'copies: two',
    told: '"copies" of need "plans" of errand "apply" is a whole number from 1 up, not "two".',
  },
  { name: 'no copies at all', instead: 'copies: 2', write: 'copies: 0', told: 'is a whole number from 1 up, not "0".' },
  {
    name: 'a map where one value stands',
    instead: 'fee: 240 usd',
    write: 'fee: {amount: 240}',
    told: '"fee" of errand "apply" is one value, but here stands a map.',
  },
  {
    name: 'a list where a map stands',
    instead: 'needs: {deed: }',
    write: 'needs: [[deed]]',
    told: 'This section is a map: each rule under its own id.',
    on: 'needs: [[deed]]',
  },
  {
    name: 'a word outside a closed set',
    instead: 'deliver: counter',
    write: 'deliver: pigeon',
    told: 'is one of counter, upload, e-mail, site binder, lender, not "pigeon".',
  },
  {
    name: 'a sort of office there is none of',
    instead: 'sort: building',
    write: 'sort: bulding',
    told: 'not "bulding"; did you mean "building"?',
  },
  {
    name: 'a sort of fact there is none of',
    instead: '{bedrooms: count, parcel: parcel number, issued: day}',
    write: '{bedrooms: cound}',
    told: 'The sort of the fact "bedrooms" is one of',
  },
  {
    name: 'an unknown clock',
    instead: 'good: {lasts: 18 months, until: begun}',
    write: 'good: {last: 18 months}',
    told: '"good" of paper "septic-permit" knows no clock "last"; did you mean "lasts"?',
  },
  {
    name: 'a start clock without its event',
    instead: '{span: 180 days, unless: begun}',
    write: '{span: 180 days}',
    told: 'the clock "start_by" of paper "card" has no "unless".',
  },
  {
    name: 'an unknown sheet size',
    instead: '{copies: 2}',
    write: '{sheets: [arch-dd]}',
    told: 'there is no sheet size "arch-dd"; did you mean "arch-d"?',
  },
  {
    name: 'an unknown seal',
    instead: '{copies: 2}',
    write: '{seal: waxen}',
    told: 'is one of wet, digital, not "waxen".',
  },
  {
    name: 'a missing office',
    instead: 'office: health',
    write: 'title: Septic',
    told: 'errand "septic" has no "office".',
    on: 'septic:\n    title',
  },
  {
    name: 'a question without a why',
    instead: 'why: Wells., ',
    write: '',
    told: 'question "acreage" has no "why".',
    on: 'acreage:',
  },
  {
    name: 'a choice without choices',
    instead: 'choices: [septic, sewer], ',
    write: '',
    told: 'question "sewage" is a choice, so it needs at least two "choices".',
    on: 'sewage:',
  },
  {
    name: 'no verb',
    instead: 'at_most:',
    write: 'atmost:',
    told: 'agreement "bedrooms" has no verb: say one of same, at_most',
    on: 'bedrooms: {say',
  },
  {
    name: 'two verbs',
    instead: 'at_most: [',
    write: 'same: [deed.parcel, form.parcel], at_most: [',
    told: 'agreement "bedrooms" says same and at_most: keep one verb.',
    on: 'bedrooms: {say',
  },
  {
    name: 'a fact the paper does not carry',
    instead: 'plans.bedrooms',
    write: 'plans.bedroms',
    told: 'The paper "plans" carries no fact "bedroms"; did you mean "bedrooms"?',
  },
  {
    name: 'a paper nowhere, in an agreement',
    instead: 'plans.bedrooms',
    write: 'plan.bedrooms',
    told: 'There is no paper "plan"; did you mean "plans"?',
  },
  {
    name: 'a question nowhere, in an agreement',
    instead: 'plans.bedrooms',
    write: 'lot.bedrooms',
    told: 'There is no question "bedrooms".',
  },
  {
    name: 'things that cannot be compared',
    instead: 'plans.bedrooms',
    write: 'plans.parcel',
    told: 'The agreement "bedrooms" compares parcel number with number: these can\'t be compared.',
    on: 'bedrooms: {say',
  },
  {
    name: 'three days to cover',
    instead: 'at_most: [plans.bedrooms, septic-permit.bedrooms]',
    write: 'covers_days: [binder.from, binder.to, septic-permit.issued]',
    told: '"covers_days" of agreement "bedrooms" compares two days, or four; here stand 3.',
  },
  {
    name: 'days that are no days',
    instead: 'at_most: [plans.bedrooms',
    write: 'not_before: [plans.bedrooms',
    told: '"not_before" of agreement "bedrooms" compares days only.',
    on: 'bedrooms: {say',
  },
  {
    name: 'a needed fact that is not there',
    instead: 'good_for: 30 days',
    write: 'facts: [bathrooms]',
    told: 'wants the fact "bathrooms", which the paper "septic-permit" doesn\'t carry; did you mean "bedrooms"?',
    on: 'septic-permit: {when',
  },
  {
    name: 'one per engagement of what is not kept so',
    instead: 'plans: {copies: 2}',
    write: 'plans: {each: engagement}',
    told: 'wants one per engagement, but the paper "plans" is not kept per engagement.',
  },
  {
    name: 'a paper that nobody yields',
    instead: 'yields: [septic-permit]',
    write: 'yields: []',
    told: 'asks for "septic-permit", which no errand yields; let an errand yield it, or mark the paper "brought: yes".',
    on: 'septic-permit: {when',
  },
  {
    name: 'a basis on nobody’s word',
    instead: 'basis: common practice',
    write: 'basis: hearsay',
    told: 'A basis is "common practice", {published: where, read: day} or {told by: who, on: day}.',
  },
  {
    name: 'a published basis without a day',
    instead: 'basis: common practice',
    write: 'basis: {published: the handout}',
    told: 'the basis has no "read".',
  },
  {
    name: 'a date that is none',
    instead: 'basis: common practice',
    write: 'basis: {told by: Ann, on: 2026-02-30}',
    told: '"2026-02-30" is no date; write it as 2026-03-02.',
  },
  {
    name: 'the same id twice',
    instead: '  roads: {sort: roads}',
    write: '  health: {sort: roads}',
    told: '"health" stands here a second time (first on line 5).',
  },
  {
    name: 'an id that is none',
    instead: '  roads: {sort: roads}',
    write: '  Road Office: {sort: roads}',
    told: '"Road Office" is no id: use lower-case words joined by "-".',
  },
  {
    name: 'an intake time that is none',
    instead: 'title: Permit desk',
    write: 'intake_until: half past three',
    told: 'is a time of day like "15:30", not "half past three".',
  },
  {
    name: 'an anchor',
    instead: 'needs: {}',
    write: 'needs: *other',
    told: 'A practice file has no anchors and aliases: write the rule out again.',
  },
  {
    name: 'a kind and a choice of kinds',
    instead: 'form: {marks',
    write: 'form: {kind: form, any_of: [form, deed], marks',
    told: 'says both "kind" and "any_of": keep one.',
  },
  {
    name: 'untouched files in one file',
    instead: 'deliver: counter',
    write: 'deliver: {by: upload, files: one file}',
    told: 'files that go untouched are separate files without stamps.',
  },
  {
    name: 'a file name with an unknown piece',
    instead: 'deliver: counter',
    write: 'deliver: {by: upload, file_name: "{tab} {title}"}',
    told: 'not {title}.',
  },
];

describe('a mistake in a practice file is told with line and sentence', () => {
  it('the small county itself has none', () => {
    expect(checkPractice([{ name: 'small.yaml', text: smallCounty }]).problems).toEqual([]);
  });

  for (const { name, instead, write, told, on } of mistakes) {
    it(name, () => {
      expect(smallCounty).toContain(instead);
      const text = smallCounty.replace(instead, write);
      const { practice, problems } = checkPractice([{ name: 'small.yaml', text }]);
      expect(practice).toBeUndefined();
      const sentences = problems.map((problem) => problem.sentence).join('\n');
      expect(sentences).toContain(told);
      const found = problems.find((problem) => problem.sentence.includes(told));
      expect(found?.line).toBe(lineOf(on ?? write, text));
      expect(found?.column).toBeGreaterThan(0);
    });
  }

  it('all mistakes are told at once, in order, as file:line: sentence', () => {
    const text = smallCounty.replace('office: health', 'office: helth').replace('copies: 2', 'copies: two');
    const error = thrown(() => readPractice([{ name: 'small.yaml', text }]));
    expect(error).toBeInstanceOf(LotfileError);
    expect(error).toMatchObject({ code: 'bad practice', about: 'small.yaml' });
    expect((error instanceof Error ? error.message : '').split('\n')).toEqual([
      `small.yaml:${lineOf('office: helth', text)}: There is no office "helth"; did you mean "health"?`,
      `small.yaml:${lineOf('copies: two', text)}: "copies" of need "plans" of errand "apply" is a whole number from 1 up, not "two".`,
    ]);
  });

  it('a mistake in an amendment is told with the amendment’s own name and line', () => {
    const layers = [
      { name: 'small.yaml', text: smallCounty },
      { name: 'county.yaml', text: 'errands:\n  apply:\n    needs:\n      plans: {copies: none}\n' },
    ];
    expect(checkPractice(layers).problems).toMatchObject([{ layer: 'county.yaml', line: 4, column: 23 }]);
  });

  it('broken YAML is told and nothing of it is used', () => {
    const { problems } = checkPractice([{ name: 'small.yaml', text: 'errands: {apply: [' }]);
    expect(problems[0]?.sentence).toContain("This can't be read as YAML");
  });

  it('an empty file, a list and a bare word are no crash', () => {
    expect(checkPractice([{ name: 'e.yaml', text: '' }]).practice?.errands).toEqual({});
    for (const text of ['- a\n- b\n', 'hello']) {
      expect(checkPractice([{ name: 'e.yaml', text }]).problems[0]?.sentence).toContain('A practice file is a map');
    }
  });

  it('a wall of brackets is refused, not followed', () => {
    const { problems } = checkPractice([{ name: 'e.yaml', text: `errands: ${'['.repeat(5000)}` }]);
    expect(problems.length).toBeGreaterThan(0);
  });

  it('a figure nobody knows is told where the figures are known', () => {
    const text = smallCounty.replace('plans.bedrooms,', 'figure.bedroms,');
    expect(checkPractice([{ name: 's.yaml', text }]).problems).toEqual([]);
    const known = checkPractice([{ name: 's.yaml', text }], { figures: ['bedrooms'] });
    expect(known.problems[0]?.sentence).toBe('There is no figure "bedroms"; did you mean "bedrooms"?');
  });
});

function thrown(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    return error;
  }
  return undefined;
}
