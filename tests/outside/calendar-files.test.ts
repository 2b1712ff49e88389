import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import type { CalendarDate } from '../../core/calendar/calendar-model.ts';
import { alarmTrigger, escaped } from '../../core/calendar/ics-text.ts';
import { lotDates } from '../../core/calendar/lot-dates.ts';
import { sendDates } from '../../core/calendar/send-dates.ts';
import { writeCalendar } from '../../core/calendar/write-calendar.ts';
import { readPractice } from '../../core/practice/index.ts';
import { type Day, daysBetween } from '../../core/vocabulary/days.ts';
import type { Edition, LotView } from '../../core/vocabulary/lot.ts';

/** Read with ical.js (an independent reader of RFC 5545). */
function read(dates: readonly CalendarDate[], today: Day): readonly InstanceType<typeof ICAL.Event>[] {
  const { calendar } = sendDates(dates, undefined, today);
  const text = writeCalendar(calendar, { lot: '0123456789abcdef', title: 'Heron Lane' });
  const root = new ICAL.Component(ICAL.parse(text));
  expect(root.getFirstPropertyValue('version')).toBe('2.0');
  return root.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
}

const one: CalendarDate = { key: 'lapse/p-1', day: '2026-07-27', title: 'T', words: [], alarms: [] };

describe('RFC 5545', () => {
  // RFC 5545, 3.3.11 Text, the example of a value of several lines; seen at
  // https://icalendar.org/iCalendar-RFC-5545/3-3-11-text.html
  it('its example of a text of three lines is written as it stands there', () => {
    const text = 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.';
    expect(escaped(text)).toBe(String.raw`Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`);
    const [event] = read([{ ...one, words: text.split('\n') }], '2026-04-14');
    expect(event?.description).toBe(text);
  });

  // RFC 5545, 3.1: a long line may be cut anywhere; example text seen at
  // https://github.com/andrewbrereton/obsidian-to-ical-plugin/issues/63 (quoting the RFC).
  it('a long line is cut and comes back whole, whatever is in it', () => {
    const say = 'This is a long description that exists on a long line. ';
    const long = `${say.repeat(4)}Hạnh Nguyễn, "Lot 7"; a\\b: 🏠🏠`;
    const [event] = read([{ ...one, title: long, words: [long, long] }], '2026-04-14');
    expect(event?.summary).toBe(long);
    expect(event?.description).toBe(`${long}\n${long}`);
  });

  // RFC 5545, 3.6.1: an event that begins on a date and has no end lasts that one day.
  it('a date is a whole day, free of any zone', () => {
    const [event] = read([one], '2026-04-14');
    expect(event?.startDate.isDate).toBe(true);
    expect(event?.startDate.toString()).toBe('2026-07-27');
    expect(event?.endDate.toString()).toBe('2026-07-28');
    expect(event?.component.getFirstPropertyValue('dtstamp')?.toString()).toBe('2026-04-14T00:00:00Z');
  });

  // RFC 5545, 3.8.6.3: a trigger counts from the start; 3.3.6: its form.
  it('alarms count back from the day, to nine in the morning', () => {
    const [event] = read([{ ...one, alarms: [30, 1] }], '2026-04-14');
    const triggers = event?.component
      .getAllSubcomponents('valarm')
      .map((alarm) => String(alarm.getFirstPropertyValue('trigger')));
    expect(triggers).toEqual(['-P29DT15H', '-PT15H']);
    for (const days of [1, 7, 30, 60]) {
      expect(ICAL.Duration.fromString(alarmTrigger(days)).toSeconds()).toBe(-(days * 24 - 9) * 3600);
    }
  });

  // RFC 5545, 3.8.7.4: a revision is the same UID with a higher SEQUENCE; 3.8.1.11: CANCELLED.
  it('a moved date is the same event with a higher sequence; one that stands no more is cancelled', () => {
    const first = sendDates([one], undefined, '2026-04-14').calendar;
    const moved = sendDates([{ ...one, day: '2026-10-25' }], first, '2026-04-20').calendar;
    const gone = sendDates([], moved, '2026-04-21').calendar;
    const events = [first, moved, gone].map((calendar) => {
      const root = new ICAL.Component(ICAL.parse(writeCalendar(calendar, { lot: 'a', title: 'x' })));
      return root.getFirstSubcomponent('vevent');
    });
    expect(new Set(events.map((event) => event?.getFirstPropertyValue('uid')))).toHaveProperty('size', 1);
    expect(events.map((event) => event?.getFirstPropertyValue('sequence'))).toEqual([0, 1, 2]);
    expect(events.map((event) => event?.getFirstPropertyValue('status'))).toEqual([
      'CONFIRMED',
      'CONFIRMED',
      'CANCELLED',
    ]);
  });
});

const practice = readPractice([
  {
    name: 'small.yaml',
    text: `
title: small
offices:
  desk: { title: Desk, sort: building }
papers:
  bond: { title: Bond, from: desk, good: { lasts: 1 year } }
  permit: { title: Permit, from: desk, good: { lasts: 5 months } }
  short: { title: Short, from: desk, good: { lasts: 1 month } }
errands:
  get: { title: Get, office: desk, stretch: land, yields: [bond, permit, short], deliver: counter }
`,
  },
]);

function lotWith(kind: string, issued: Day): LotView {
  const edition: Edition = {
    id: 'e-1',
    paper: 'p-1',
    received: issued,
    issued,
    facts: {},
    marks: [],
    standings: [],
    links: [],
    physicalOnly: false,
    sealed: false,
    readable: true,
    pages: 1,
    sheets: ['letter'],
  };
  const paper = { id: 'p-1', kind, title: kind, editions: [edition] };
  return {
    title: 'Lot',
    answers: {},
    identities: [],
    sameAs: [],
    subjects: [],
    events: [],
    papers: [paper],
    visits: [],
  };
}

describe('month ends and 29 February', () => {
  // Added months clamp to the month's end, always from the original date: tc39/test262,
  // test/built-ins/Temporal/PlainDate/prototype/add/leap-year-arithmetic.js and basic-arithmetic.js.
  it.each([
    ['bond', '2020-02-29', '2021-02-28'],
    ['permit', '2021-09-30', '2022-02-28'],
    ['permit', '2019-09-30', '2020-02-29'],
    ['permit', '2021-10-31', '2022-03-31'],
    ['short', '2020-01-31', '2020-02-29'],
  ] as const)('%s issued on %s stands in the calendar on %s', (kind, issued, day) => {
    const dates = lotDates({ practice, lot: lotWith(kind, issued), day: issued }, []);
    const [event] = read(dates, issued);
    expect(event?.startDate.toString()).toBe(day);
  });

  // A yearly RRULE from 29 February skips three years of four, a monthly one from the 31st skips short months
  // (RFC 5545, 3.3.10: invalid dates are ignored; https://github.com/dateutil/dateutil/pull/522): so no rule of
  // recurrence is ever written, each date stands for itself.
  it('no recurrence is written, and ical.js, given one, would lose the year', () => {
    const rule = ICAL.Recur.fromString('FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29;COUNT=2');
    const steps = rule.iterator(ICAL.Time.fromDateString('2020-02-29'));
    expect([steps.next()?.toString(), steps.next()?.toString()]).toEqual(['2020-02-29', '2024-02-29']);
    const { calendar } = sendDates(
      lotDates({ practice, lot: lotWith('bond', '2020-02-29'), day: '2020-03-01' }, []),
      undefined,
      '2020-03-01',
    );
    expect(writeCalendar(calendar, { lot: 'a', title: 'x' })).not.toContain('RRULE');
  });

  // Day counting: issue + N, the day of issue not counted (reference: FRCP 6(a)(1)(A), http://federal-rules.laws-info.com/frcp/rule_6).
  it('180 days of comments end 180 days after, the first day not counted', () => {
    const due = { errand: 'get', title: 'Get', through: '2026-10-11' as Day, say: 's' };
    expect(daysBetween('2026-04-14', due.through)).toBe(180);
    const dates = lotDates({ practice, lot: lotWith('bond', '2026-01-01'), day: '2026-04-14' }, [due]);
    expect(dates.map(({ key, day }) => [key, day])).toContainEqual(['answer/get', '2026-10-11']);
  });
});
