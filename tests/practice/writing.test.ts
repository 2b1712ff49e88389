import { describe, expect, it } from 'vitest';
import { readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { errandOf, needOf, paperOf, told, under } from './common-layers.ts';
import { smallCounty } from './small-county.ts';

const read = (text: string): Practice => readPractice([{ name: 's.yaml', text }]);
const small = read(smallCounty);

/** The small county with one piece written otherwise. */
function written(instead: string, write: string): Practice {
  expect(smallCounty).toContain(instead);
  return read(smallCounty.replace(instead, write));
}

function condition(write: string): string {
  const { when } = needOf(written('when: {sewage: septic}', write), 'apply', 'septic-permit');
  return when === undefined ? 'always' : told(when);
}

describe('how a practice file is written', () => {
  it('an empty need is one plain paper of that kind, left with the office', () => {
    expect(needOf(small, 'septic', 'deed')).toMatchObject({
      kinds: ['deed'],
      use: 'leave',
      copies: 1,
      form: 'either',
      optional: false,
      basis: { on: 'common practice' },
    });
  });

  it('a need may be called otherwise than its paper, or be met by any of several', () => {
    const one = written('plans: {copies: 2}', 'drawings: plans');
    expect(needOf(one, 'apply', 'drawings').kinds).toEqual(['plans']);
    const several = written('plans: {copies: 2}', 'owner: {any_of: [deed, form]}');
    expect(needOf(several, 'apply', 'owner').kinds).toEqual(['deed', 'form']);
  });

  it('needs and "before" may be written as a plain list', () => {
    const practice = written('needs: {deed: }', 'needs: [deed, form]\n    before: [begun, bind]');
    expect(errandOf(practice, 'septic').needs.map((need) => need.id)).toEqual(['deed', 'form']);
    expect(errandOf(practice, 'septic').before.map((one) => one.after)).toEqual([
      { event: 'begun' },
      { errand: 'bind' },
    ]);
  });

  it('use and how are the same word; spans, marks, facts, seal, stamp and approval are carried', () => {
    const practice = written(
      'plans: {copies: 2}',
      'plans: {how: bring home, good_for: 2 weeks, fresh: 1 year, facts: [bedrooms], seal: wet, stamped_by: health, approved_by: desk, fill: forms/plans, why: Because.}',
    );
    expect(needOf(practice, 'apply', 'plans')).toMatchObject({
      use: 'bring home',
      goodFor: { weeks: 2 },
      fresh: { years: 1 },
      facts: ['bedrooms'],
      seal: ['wet'],
      stampedBy: 'health',
      approvedBy: 'desk',
      fill: 'forms/plans',
      why: 'Because.',
    });
  });

  it('sizes may be a list, a range, or everything from one size up', () => {
    const sheets = (write: string): readonly string[] =>
      needOf(written('plans: {copies: 2}', `plans: {sheets: ${write}}`), 'apply', 'plans').sheets;
    expect(sheets('[arch-d, letter]')).toEqual(['arch-d', 'letter']);
    expect(sheets('letter to ansi-b')).toEqual(['letter', 'legal', 'ansi-b', 'arch-a']);
    expect(sheets('arch-d or larger')).toEqual(['ansi-e', 'ansi-f', 'arch-d', 'arch-e1', 'arch-e', 'a0']);
  });

  it('conditions: keys are and-ed, lists or-ed, named ones and yes-or-no questions stand alone', () => {
    expect(condition('when: {sewage: [septic, sewer], lender: no}')).toBe(
      '(sewage is septic/sewer) and (lender is false)',
    );
    expect(condition('when: lender')).toBe('lender is true');
    expect(condition('when: big')).toBe('floor_area over 5000');
    expect(condition('when: {big: no}')).toBe('not (floor_area over 5000)');
    expect(condition('when: [big, {lender: yes}]')).toBe('(floor_area over 5000) or (lender is true)');
    expect(condition('when: {floor_area: {over: 1000, under: 3000}}')).toBe(
      '(floor_area over 1000) and (floor_area under 3000)',
    );
    expect(condition('when: {cost: {over: "2,500 usd"}}')).toBe('cost over 250000');
    expect(condition('when: {happened: begun, held: [deed, form]}')).toBe(
      '(happened begun) and ((held deed) or (held form))',
    );
    expect(condition('unless: lender')).toBe('not (lender is true)');
    expect(condition('when: {sewage: septic}, unless: {happened: begun}')).toBe(
      '(sewage is septic) and (not (happened begun))',
    );
  });

  it('clocks: every sort, labelled, two of a sort in a list', () => {
    const practice = written(
      'good: {lasts: 18 months, until: begun}',
      `good:
      - {stated: yes, lasts: {span: 18 months, label: the rule}}
      - {lasts: {span: 3 years, when: lender}}
      - {start_by: {span: 1 year, unless: begun}, finish_by: {span: 2 years, unless: moved-in}}
      - {idle: {span: 12 months, since: approved inspection}, while: deed, until: begun}
      - {stated: issued}
    extend: {by: deed, adds: 90 days, times: 2, asked: before lapse, after: begun}
    revive: {within: 2 years, fee: 50 usd}`,
    );
    const permit = paperOf(practice, 'septic-permit');
    expect(permit.clocks).toEqual([
      { sort: 'stated', label: 'the date printed on it' },
      { sort: 'lasts', span: { months: 18 }, label: 'the rule' },
      {
        sort: 'lasts',
        span: { years: 3 },
        label: '3 years from issue',
        when: { op: 'is', question: 'lender', values: [true] },
      },
      { sort: 'start_by', span: { years: 1 }, unless: 'begun', label: 'start within 1 year' },
      { sort: 'finish_by', span: { years: 2 }, unless: 'moved-in', label: 'finish within 2 years' },
      {
        sort: 'idle',
        span: { months: 12 },
        since: 'approved inspection',
        label: '12 months since the last approved inspection',
      },
      { sort: 'while', kind: 'deed', label: 'while the deed is good' },
      { sort: 'until', event: 'begun', label: 'until it no longer fits' },
      { sort: 'stated', fact: 'issued', label: 'the date printed on it' },
    ]);
    expect(permit.extension).toEqual({
      by: 'deed',
      adds: { days: 90 },
      times: 2,
      askedBeforeLapse: true,
      after: 'begun',
    });
    expect(permit.revival).toEqual({ within: { years: 2 }, fee: 5000 });
  });

  it('deliveries have what is usual for their way, and limits where said', () => {
    expect(errandOf(small, 'apply').deliver).toMatchObject({
      way: 'counter',
      files: 'one file',
      cover: true,
      dividers: true,
      sets: 1,
    });
    const upload = written(
      'deliver: counter',
      'deliver: {by: upload, file_limit: 25 MB, file_name: "{tab} {paper} {day}", file_name_limit: 60}',
    );
    expect(errandOf(upload, 'apply').deliver).toMatchObject({
      way: 'upload',
      files: 'separate files',
      untouched: true,
      stamps: false,
      fileLimit: 25_000_000,
      fileName: '{tab} {paper} {day}',
      fileNameLimit: 60,
    });
    expect(errandOf(written('deliver: counter', 'deliver: {by: lender, sets: 2}'), 'apply').deliver).toMatchObject({
      way: 'lender',
      files: 'one file',
      sets: 2,
      dividers: false,
    });
  });

  it('one sameness said of many papers is judged in pairs against the first', () => {
    const practice = written(
      'agreements:',
      'agreements:\n  parcel: {say: One parcel, same: [deed.parcel, form.parcel, plans.parcel, septic-permit.parcel], unless: big}',
    );
    const pairs = Object.values(practice.agreements).filter((one) => one.id.startsWith('parcel'));
    expect(pairs.map((one) => [one.id, ...one.terms.map((term) => (term.of === 'paper' ? term.kind : ''))])).toEqual([
      ['parcel', 'deed', 'form'],
      ['parcel-plans', 'deed', 'plans'],
      ['parcel-septic-permit', 'deed', 'septic-permit'],
    ]);
    expect(pairs.every((one) => one.when?.op === 'not')).toBe(true);
  });

  it('agreements compare papers, answers, figures, numbers, money and plain words', () => {
    const practice = written(
      'at_most: [plans.bedrooms, septic-permit.bedrooms]',
      'one_of: [plans.bedrooms, lot.acreage, figure.rooms, 3, "$5", R-1]',
    );
    expect(under(practice.agreements, 'bedrooms').terms).toEqual([
      { of: 'paper', kind: 'plans', fact: 'bedrooms' },
      { of: 'lot', question: 'acreage' },
      { of: 'figure', figure: 'rooms' },
      { of: 'value', value: 3 },
      { of: 'value', value: 500 },
      { of: 'value', value: 'R-1' },
    ]);
  });

  it('titles come from ids where none are given', () => {
    expect(paperOf(small, 'septic-permit').title).toBe('Septic permit');
    expect(under(small.events, 'moved-in').title).toBe('Moved in');
    expect(paperOf(small, 'plans').facts.bedrooms).toEqual({ id: 'bedrooms', sort: 'count', title: 'Bedrooms' });
  });

  it('numbers that look like text stay as written', () => {
    const practice = written('title: Permit desk', 'title: Permit desk, phone: 0070, hours: 8:00');
    expect(under(practice.offices, 'desk').phone).toBe('0070');
  });

  it('what is read survives being stored as JSON', () => {
    expect(JSON.parse(JSON.stringify(small))).toEqual(small);
  });
});
