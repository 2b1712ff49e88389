import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { requests } from '../../core/desk/contract/requests.ts';
import { addDays, addSpan, addWorkingDays, nextOpenDay, safeDay } from '../../core/vocabulary/days.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { fuzzDesk } from './fuzz/fuzz-desk.ts';
import { notToldWell } from './fuzz/told-well.ts';
import { openSmallLot } from './small-lot.ts';

const sum = (counts: Readonly<Record<string, number>>): number =>
  Object.values(counts).reduce((all, one) => all + one, 0);

describe('two thousand requests, many with something odd in them (seed 7)', () => {
  it('each end in an answer or a sentence of the closed set, every screen goes on answering, and every lot stays sound', {
    timeout: 600_000,
  }, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lotfile-fuzz-'));
    const { asked, answered, refused, found } = await fuzzDesk({ folder, count: 2000, seed: 7 });
    expect(found).toEqual([]);
    expect(sum(answered)).toBeGreaterThan(600);
    expect(sum(refused)).toBeGreaterThan(600);
    expect(Object.keys(requests).filter((name) => (asked[name] ?? 0) < 5)).toEqual([]);
  });
});

describe('found by asking at random', () => {
  it('a file that is gone, or a folder, is refused with its name when a record is made of it', async () => {
    await using small = await openSmallLot();
    const { desk, root } = small;
    for (const [path, name] of [
      [join(root, 'gone.jpg'), 'gone.jpg'],
      [root, 'a folder'],
    ] as const) {
      const file = desk.tickets.offer(path, name);
      const asked = desk.ask('record', { sort: 'photo', title: 'Trench', file }, small);
      await expect(asked).rejects.toMatchObject({ code: 'file refused', about: name });
    }
  });

  it('what the system says of a file is told in words, never as a defect of the program', async () => {
    await using small = await openSmallLot();
    const files = [small.desk.tickets.offer(join(small.root, 'gone.pdf'))];
    const error = await small.desk.ask('read', { files }, small).catch(LotfileError.from);
    expect(error).toMatchObject({
      code: 'not found',
      message: 'Reading or writing "gone.pdf" did not work. It is not there.',
    });
    expect(error instanceof LotfileError && notToldWell(error, '')).toBe(undefined);
  });

  it('a day at the end of the calendar is refused, and one that a bundle brings breaks no reckoning', async () => {
    await using small = await openSmallLot();
    await expect(small.desk.ask('target', { day: '9999-12-31' }, small)).rejects.toMatchObject({ code: 'wrong use' });
    expect(addDays('9999-12-31', 3)).toBe('9999-12-31');
    expect(addDays('0000-01-01', -1)).toBe('0000-01-01');
    expect(addSpan('9990-01-01', { years: 999_999_999 })).toBe('9999-12-31');
    expect(addSpan('0001-01-01', { months: -999_999_999 })).toBe('0000-01-01');
    expect(addWorkingDays('9999-12-30', 10)).toBe('9999-12-31');
    // 1 January of year 0 is a Saturday in the proleptic Gregorian calendar: there is no day before it to go to.
    expect([safeDay('0000-01-01'), addWorkingDays('0000-01-01', -5)]).toEqual(['0000-01-01', '0000-01-01']);
    expect(nextOpenDay('9999-12-31')).toBe('9999-12-31');
  });

  it('an id longer than any can be is refused at the door, and its sentence is one that can be read', async () => {
    await using small = await openSmallLot();
    const asked = small.desk.ask('errand', { errand: 'x'.repeat(65_536) }, small);
    const error = await asked.then(() => undefined, LotfileError.from);
    expect(error).toMatchObject({ code: 'wrong use' });
    expect(error === undefined ? '' : notToldWell(error, '')).toBeUndefined();
  });

  it('a file name that no file can have is refused at the door', async () => {
    await using small = await openSmallLot();
    for (const item of ['a\0b', 'a\nb']) {
      await expect(small.desk.ask('put-aside', { item }, small)).rejects.toMatchObject({ code: 'wrong use' });
    }
  });
});
