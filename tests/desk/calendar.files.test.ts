import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { openSmallLot, type SmallLot } from './small-lot.ts';

function textOf({ desk }: SmallLot, ticket: string): string {
  return readFileSync(desk.tickets.look(ticket).path, 'utf8');
}

describe('dates as a calendar file', () => {
  it('hold what lapses, the last day to ask, booked visits, comments and the day to move in', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    await desk.ask('target', { day: '2027-03-12' }, small);
    const files = [await small.pdf('septic.pdf', ['Septic permit'])];
    await desk.ask('answer', { question: 'sewage', answer: 'septic' }, small);
    await desk.ask('event', { event: 'construction-begun', day: '2026-04-01' }, small);
    await desk.ask('keep', { papers: [{ files, kind: 'septic-permit', issued: '2025-03-03', number: 'EH-1' }] }, small);
    await desk.ask('visit', { errand: 'well-apply', state: 'planned', day: '2026-05-04' }, small);
    await desk.ask(
      'visit',
      { errand: 'permit-apply', state: 'sent back', day: '2026-04-10', comments: ['Show the setback.'] },
      small,
    );
    const made = await desk.ask('calendar', {}, small);
    expect(made.changes.map(({ title, day }) => [day, title])).toEqual([
      ['2026-05-04', expect.stringContaining('well')],
      ['2026-09-03', 'Last day to ask for more time: Septic permit EH-1'],
      ['2026-09-03', 'Last good day: Septic permit EH-1'],
      ['2026-10-07', expect.stringContaining('Answer their comments')],
      ['2027-03-12', 'Move in: Heron Lane'],
    ]);
    const root = new ICAL.Component(ICAL.parse(textOf(small, made.ticket)));
    expect(root.getAllSubcomponents('vevent')).toHaveLength(made.events);
  });

  it('made again without a change are the same bytes; after one the change is told', async () => {
    await using small = await openSmallLot();
    const { desk, folder } = small;
    await desk.ask('target', { day: '2027-03-12' }, small);
    const first = await desk.ask('calendar', {}, small);
    const bytes = textOf(small, first.ticket);
    const again = await desk.ask('calendar', {}, small);
    expect(again).toMatchObject({ changes: [], before: '2026-04-14' });
    expect(textOf(small, again.ticket)).toBe(bytes);
    await desk.ask('target', { day: '2027-04-01' }, small);
    const moved = await desk.ask('calendar', {}, { ...small, on: '2026-04-20' });
    expect(moved.changes).toEqual([
      { sort: 'moved', title: 'Move in: Heron Lane', day: '2027-04-01', was: '2027-03-12' },
    ]);
    expect(existsSync(join(folder, 'calendar.json'))).toBe(true);
    writeFileSync(join(folder, 'calendar.json'), '{"version": 1');
    await expect(desk.ask('calendar', {}, small)).rejects.toMatchObject({ code: 'lot damaged' });
  });
});
