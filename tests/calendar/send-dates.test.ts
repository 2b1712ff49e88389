import { describe, expect, it } from 'vitest';
import type { CalendarDate } from '../../core/calendar/calendar-model.ts';
import { joinSent, sendDates } from '../../core/calendar/send-dates.ts';

const lapse: CalendarDate = { key: 'lapse/p-1', day: '2026-07-27', title: 'Septic', words: ['why'], alarms: [30] };
const visit: CalendarDate = { key: 'visit/v-1', day: '2026-05-01', title: 'Footing', words: [], alarms: [1] };

describe('dates sent again', () => {
  it('are new once, then unchanged: the same lines, the same bytes', () => {
    const first = sendDates([lapse, visit], undefined, '2026-04-14');
    expect(first.changes.map(({ sort, title }) => [sort, title])).toEqual([
      ['new', 'Footing'],
      ['new', 'Septic'],
    ]);
    const again = sendDates([visit, lapse], first.calendar, '2026-04-14');
    expect(again.changes).toEqual([]);
    expect(again.calendar).toEqual(first.calendar);
  });

  it('count one up where the day moved or the words changed, and say which', () => {
    const first = sendDates([lapse, visit], undefined, '2026-04-14').calendar;
    const moved = sendDates(
      [
        { ...lapse, day: '2026-10-25' },
        { ...visit, words: ['bring keys'] },
      ],
      first,
      '2026-04-20',
    );
    expect(moved.changes).toEqual([
      { sort: 'reworded', title: 'Footing', day: '2026-05-01' },
      { sort: 'moved', title: 'Septic', day: '2026-10-25', was: '2026-07-27' },
    ]);
    expect(moved.calendar.dates.map(({ sequence, modified }) => [sequence, modified])).toEqual([
      [1, '2026-04-20'],
      [1, '2026-04-20'],
    ]);
  });

  it('are struck out where they stand no more, told once, and come back with a higher count', () => {
    const first = sendDates([lapse, visit], undefined, '2026-04-14').calendar;
    const without = sendDates([lapse], first, '2026-04-15');
    expect(without.changes).toEqual([{ sort: 'gone', title: 'Footing', day: '2026-05-01' }]);
    expect(without.calendar.dates[0]).toMatchObject({ key: 'visit/v-1', cancelled: true, sequence: 1 });
    const later = sendDates([lapse], without.calendar, '2026-04-16');
    expect(later.changes).toEqual([]);
    expect(later.calendar.dates[0]).toMatchObject({ cancelled: true, sequence: 1 });
    const back = sendDates([lapse, visit], later.calendar, '2026-04-17');
    expect(back.changes).toEqual([{ sort: 'new', title: 'Footing', day: '2026-05-01' }]);
    expect(back.calendar.dates[0]).toMatchObject({ cancelled: false, sequence: 2 });
  });

  it('that are simply past are left to the calendar: neither gone nor struck out', () => {
    const first = sendDates([lapse, visit], undefined, '2026-04-14').calendar;
    const later = sendDates([lapse], first, '2026-05-02');
    expect(later.changes).toEqual([]);
    expect(later.calendar.dates.map(({ key }) => key)).toEqual(['lapse/p-1']);
  });

  it('of two computers join by the higher count', () => {
    const first = sendDates([lapse, visit], undefined, '2026-04-14').calendar;
    const there = sendDates([{ ...lapse, day: '2026-10-25' }, visit], first, '2026-04-20').calendar;
    const joined = joinSent(first, there);
    expect(joined?.dates.find(({ key }) => key === 'lapse/p-1')).toMatchObject({ day: '2026-10-25', sequence: 1 });
    expect(joinSent(there, first)?.dates.toSorted((a, b) => (a.key < b.key ? -1 : 1))).toEqual(
      joined?.dates.toSorted((a, b) => (a.key < b.key ? -1 : 1)),
    );
    expect(joinSent(undefined, first)).toEqual(first);
  });
});
