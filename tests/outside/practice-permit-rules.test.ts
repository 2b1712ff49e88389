import { describe, expect, it } from 'vitest';
import { readPractice } from '../../core/practice/index.ts';
import type { Clock, PaperKind } from '../../core/vocabulary/practice.ts';
import { paperOf } from '../practice/common-layers.ts';

/**
 * Published validity rules of real places must be sayable in the words of a practice file, and come out as the
 * right kind of clock: from issue, since the last inspection, since the last approved inspection, to a fixed end,
 * or ended by an event. Each place's own page, read in a stored copy, stands beside its rule.
 */
interface Place {
  readonly place: string;
  readonly source: string;
  readonly write: string;
  readonly clocks: readonly string[];
  readonly extends?: string;
}

const septic: readonly Place[] = [
  {
    place: 'Florida: 18 months, 90 days more if building has begun',
    source: 'https://www.law.cornell.edu/regulations/florida/Fla-Admin-Code-Ann-R-62-6.003',
    write: 'good: 18 months\n    extend: {by: more-time, adds: 90 days, asked: before lapse, after: begun}',
    clocks: ['lasts 18 months'],
    extends: '90 days x1 before lapse after begun',
  },
  {
    place: 'Tennessee: 3 years from issue',
    source:
      'https://regulations.justia.com/states/tennessee/title-0400/subtitle-0400-48/chapter-0400-48-01/section-0400-48-01-06',
    write: 'good: {lasts: 3 years}',
    clocks: ['lasts 3 years'],
  },
  {
    place: 'Virginia: void after 18 months or when site conditions change',
    source: 'http://varules.elaws.us/code/12vac5-610-300',
    write: 'good: {lasts: 18 months, until: changed}',
    clocks: ['lasts 18 months', 'until changed'],
  },
  {
    place: 'Kenosha County, Wisconsin: a soil test has no end of its own',
    source: 'https://www.kenoshacounty.org/FAQ.aspx?QID=264',
    write: 'good: for good',
    clocks: ['for good'],
  },
  {
    place: 'Washtenaw County, Michigan: one year to finish',
    source: 'https://meetings.washtenaw.org/FAQ.aspx?QID=356',
    write: 'good: {finish_by: {span: 1 year, unless: finished}}',
    clocks: ['finish_by 1 year unless finished'],
  },
];

const building: readonly Place[] = [
  {
    place: 'Deltona, Florida: 180 days to start, then 180 days since the last approved inspection',
    source: 'https://deltona.egovhost2.com/2019/01/11/do-permits-expire/',
    write: 'good: {start_by: {span: 180 days, unless: begun}, idle: {span: 180 days, since: approved inspection}}',
    clocks: ['start_by 180 days unless begun', 'idle 180 days since approved inspection'],
  },
  {
    place: 'Green Cove Springs, Florida: complete in 180 days, or 180 days since the last inspection',
    source: 'https://greencovesprings.com/FAQ.aspx?QID=72',
    write: 'good: {finish_by: {span: 180 days, unless: finished}, idle: {span: 180 days, since: inspection}}',
    clocks: ['finish_by 180 days unless finished', 'idle 180 days since inspection'],
  },
  {
    place: 'San Bernardino County, California: 12 months to start, 12 months idle, one extension of 180 days',
    source: 'https://lus.sbcounty.gov/faqs/how-long-is-a-building-permit-good-for/',
    write:
      'good: {start_by: {span: 12 months, unless: begun}, idle: 12 months}\n    extend: {by: more-time, adds: 180 days, times: 1}',
    clocks: ['start_by 12 months unless begun', 'idle 12 months since inspection'],
    extends: '180 days x1 before lapse',
  },
  {
    place: 'Holden Beach, North Carolina: 6 months to start, then 12 months idle',
    source: 'https://codelibrary.amlegal.com/codes/holdenbeach/latest/holden_nc/0-0-0-20157',
    write: 'good: {start_by: {span: 6 months, unless: begun}, idle: 12 months}',
    clocks: ['start_by 6 months unless begun', 'idle 12 months since inspection'],
  },
  {
    place: 'Gretna, Nebraska: 180 days to start, one year to finish',
    source: 'https://www.gretnane.org/FAQ.aspx?QID=61',
    write: 'good: {start_by: {span: 180 days, unless: begun}, finish_by: {span: 1 year, unless: finished}}',
    clocks: ['start_by 180 days unless begun', 'finish_by 1 year unless finished'],
  },
  {
    place: 'Decatur County, Indiana, driveway: complete within a year, one more year if asked before',
    source: 'https://codelibrary.amlegal.com/codes/decaturcounty/latest/decaturco_in/0-0-0-1520',
    write:
      'good: {finish_by: {span: 1 year, unless: finished}}\n    extend: {by: more-time, adds: 1 year, asked: before lapse}',
    clocks: ['finish_by 1 year unless finished'],
    extends: '1 year x1 before lapse',
  },
];

function inWords(clock: Clock): string {
  const span =
    'span' in clock ? Object.entries(clock.span).map(([unit, n]) => `${n} ${n === 1 ? unit.slice(0, -1) : unit}`) : [];
  switch (clock.sort) {
    case 'lasts':
      return `lasts ${span}`;
    case 'start_by':
    case 'finish_by':
      return `${clock.sort} ${span} unless ${clock.unless}`;
    case 'idle':
      return `idle ${span} since ${clock.since}`;
    case 'until':
      return `until ${clock.event}`;
    case 'while':
      return `while ${clock.kind}`;
    case 'stated':
    case 'for good':
      return clock.sort;
  }
}

function extensionInWords(kind: PaperKind): string | undefined {
  const { extension } = kind;
  if (extension === undefined) return undefined;
  const span = Object.entries(extension.adds).map(([unit, n]) => `${n} ${n === 1 ? unit.slice(0, -1) : unit}`);
  const asked = extension.askedBeforeLapse ? ' before lapse' : '';
  return `${span} x${extension.times}${asked}${extension.after === undefined ? '' : ` after ${extension.after}`}`;
}

function permit(write: string): PaperKind {
  const text = `offices: {desk: {sort: building}}
events: {begun: , finished: , changed: }
papers:
  more-time: {from: desk}
  permit:
    from: desk
    ${write}
`;
  return paperOf(readPractice([{ name: 'place.yaml', text }]), 'permit');
}

describe('validity rules as places publish them', () => {
  for (const { place, source, write, clocks, extends: extension } of [...septic, ...building]) {
    it(`${place} (${source})`, () => {
      const kind = permit(write);
      expect(kind.clocks.map(inWords)).toEqual(clocks);
      expect(extensionInWords(kind)).toBe(extension);
    });
  }
});
