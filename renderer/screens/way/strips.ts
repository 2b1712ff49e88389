import { lifeInWords } from './lives.ts';
import { widthOf } from './measures.ts';
import type { Life, WayModel } from './model.ts';
import type { Along, PlacedLife, SheetWish } from './sheet-plan.ts';
import { intoRows } from './spread.ts';

export const rowPitch = 24;

export type LifeSort = 'ends' | 'endless' | 'expected' | 'past';

/** What a life is to the sheet; `past`: lapsed, and nothing asks for it any more. */
export function sortOf({ expected, through, from, state, needed }: Life): LifeSort {
  if (expected) return needed.length > 0 && from !== undefined ? 'expected' : 'past';
  if (through === undefined) return from === undefined ? 'past' : 'endless';
  return state === 'lapsed' && needed.length === 0 ? 'past' : 'ends';
}

/** The lives that get a strip: those that end, and with a wish those with no end and those still to come. */
export function shownLives({ lives }: WayModel, { endless, expected }: SheetWish): readonly Life[] {
  return lives.filter((life) => {
    const sort = sortOf(life);
    return sort === 'ends' || (sort === 'endless' && endless) || (sort === 'expected' && expected);
  });
}

function strip(life: Life, { at, axis }: Along) {
  const from = life.from ?? axis.from;
  const torn = from < axis.from;
  const start = at(torn ? axis.from : from);
  const beyond = life.through === undefined || life.through > axis.to;
  const end = at(life.through === undefined || beyond ? axis.to : life.through);
  const expectedEnd = Math.max(start, ...life.needed.map(({ row, at: on }) => at(row.done ?? on)));
  const to = Math.max(start + 8, life.expected ? expectedEnd : end);
  const gapTo = life.lateFor[0] === undefined ? undefined : Math.max(to + 4, at(life.lateFor[0].at));
  return { from: start, to, gapTo, torn, open: beyond && !life.expected };
}

/** Where a strip ends, the words behind it included. */
export function wordsEnd({ to, gapTo, outside, words }: Omit<PlacedLife, 'life' | 'y' | 'ticks' | 'ears'>): number {
  return (gapTo ?? to) + (outside ? widthOf(words) + 12 : 0);
}

/** The strips in as few rows as hold them, words and all, apart. */
export function stripsOf(lives: readonly Life[], along: Along, top: number): readonly PlacedLife[] {
  const drawn = lives.map((life) => {
    const words = lifeInWords(life);
    const shape = strip(life, along);
    const room = (shape.gapTo ?? shape.to) - shape.from;
    const outside = room < widthOf(words) + 16;
    return { life, words, ...shape, outside };
  });
  const ordered = drawn.toSorted((a, b) => a.from - b.from || a.to - b.to);
  const rows = intoRows(
    ordered.map((one) => ({ from: one.from, to: wordsEnd(one) })),
    14,
  );
  return ordered.map((one, index) => ({
    ...one,
    y: top + (rows[index] ?? 0) * rowPitch + 4,
    ticks: [...new Set(one.life.needed.map(({ at }) => along.at(at)))],
    ears: one.life.ends.slice(0, -1).flatMap((day) => (day <= along.axis.to ? [along.at(day)] : [])),
  }));
}
