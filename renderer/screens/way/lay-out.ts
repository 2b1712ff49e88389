import { addDays, type Day, dayInWords, daysBetween } from '../../../core/vocabulary/days.ts';
import { type Axis, axisOver, monthInWords } from './axis.ts';
import { type Gate, type Life, lifeInWords, type Station, type WayModel } from './model.ts';
import { intoRows, spread } from './spread.ts';
import { wordOf } from './words.ts';

/**
 * The sheet's geometry, in sixteenths of the root letter size (so that it grows with the letters).
 * Plan above: slanted names, numbered stations, leaders, the baseline. Profile below: the lives of the papers.
 */
export interface PlacedStation {
  readonly station: Station;
  /** Middle of its number. */
  readonly x: number;
  /** Where it truly stands on the baseline. */
  readonly foot: number;
}

export interface PlacedGate {
  readonly gate: Gate;
  readonly x: number;
  readonly foot: number;
}

export interface PlacedLife {
  readonly life: Life;
  readonly words: string;
  readonly y: number;
  readonly from: number;
  readonly to: number;
  /** Where the red part ends: it is needed there. */
  readonly gapTo: number | undefined;
  /** It began before the sheet does. */
  readonly torn: boolean;
  /** No end is known: the strip runs on. */
  readonly open: boolean;
  /** The words have no room inside and stand behind it. */
  readonly outside: boolean;
  /** Where stations need it. */
  readonly ticks: readonly number[];
  /** Where earlier ones of its kind end. */
  readonly ears: readonly number[];
}

export interface Flag {
  readonly sort: 'today' | 'finish' | 'target';
  readonly words: string;
  readonly x: number;
  readonly row: number;
}

export interface SheetPlan {
  readonly width: number;
  readonly height: number;
  /** Right end of the axis. */
  readonly end: number;
  readonly numbers: number;
  readonly baseline: number;
  readonly profile: { readonly top: number; readonly bottom: number };
  /** Top of the rows of flags: today, as it stands, target. */
  readonly flagTop: number;
  readonly months: readonly { readonly x: number; readonly words: string }[];
  readonly weeks: readonly number[];
  readonly stations: readonly PlacedStation[];
  readonly gates: readonly PlacedGate[];
  readonly lives: readonly PlacedLife[];
  readonly flags: readonly Flag[];
  readonly today: number;
  /** Settled stations from before the sheet begins. */
  readonly earlier: number;
}

export interface SheetWish {
  /** Width of a day; a fit is worked out by `fitting`. */
  readonly day: number;
  readonly endless: boolean;
  readonly expected: boolean;
}

const gap = 24;
const gateGap = 20;
const rowPitch = 24;
const letter = 6.1;
const flagPitch = 18;
const left = 20;
const slant = (52 * Math.PI) / 180;

/** Width of words in the small size, near enough to keep them apart. */
export function widthOf(words: string): number {
  return words.length * letter;
}

/** What stands slanted over a number: cut where it would make the sheet too high. */
export function slantedWords(title: string): string {
  return title.length <= 44 ? title : `${title.slice(0, 42).trimEnd()} ...`;
}

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

/** How far back the sheet shows what is settled; the list has the rest. */
const behind = 183;

/** The stations that stand on the sheet. */
function drawnStations({ today, stations }: WayModel): readonly Station[] {
  const first = addDays(today, -behind);
  return stations.filter(({ at, state }) => at >= first || state !== 'settled');
}

/** The days the sheet spans: what the way touches; long lives are torn off at its left edge. */
function axisOf(model: WayModel): Axis {
  const { today, finish, target, gates } = model;
  const stations = drawnStations(model);
  const days: (Day | undefined)[] = [
    addDays(today, -14),
    addDays(today, 60),
    finish,
    target,
    ...stations.map(({ at }) => at),
    ...stations.map(({ row }) => row.done),
    ...gates.map(({ opens }) => opens),
  ];
  return axisOver(
    days.flatMap((day) => day ?? []),
    today,
  );
}

/** Width of a day at which the whole way stands in `width`, or in what its numbers need where that is more. */
export function fitting(model: WayModel, width: number): number {
  const row = drawnStations(model).length * gap + model.gates.length * gateGap;
  return Math.max(0.8, Math.max(row, width - left - overhang(model)) / axisOf(model).days);
}

/** Length of the longest slanted name. */
function longest(model: WayModel): number {
  return Math.max(
    120,
    ...drawnStations(model).map((station) => slantedWords(`${station.title} ${wordOf(station)}`).length * 5.7),
    ...model.gates.map(({ title }) => slantedWords(title).length * 6.9),
  );
}

function overhang(model: WayModel): number {
  return longest(model) * Math.cos(slant) * 0.8;
}

interface Along {
  readonly axis: Axis;
  readonly at: (day: Day) => number;
}

type Standing = { readonly station: Station } | { readonly gate: Gate };

/** A station can be pressed and needs its room; a gate only has to be read. */
function apart(a: Standing | undefined, b: Standing): number {
  return a !== undefined && 'station' in a && 'station' in b ? gap : gateGap;
}

/** Stations and gates share the row of numbers, so that no name stands on another. */
function placed(model: WayModel, { at, axis }: Along, line: readonly [number, number]) {
  const all = [
    ...drawnStations(model).map((station) => ({ station, foot: at(station.at) })),
    ...model.gates.map((gate) => ({ gate, foot: at(gate.opens ?? axis.to) })),
  ].toSorted((a, b) => a.foot - b.foot);
  const offsets: number[] = [];
  all.forEach((one, index) => {
    offsets.push(index === 0 ? 0 : (offsets.at(-1) ?? 0) + apart(all[index - 1], one));
  });
  const places = spread(
    all.map(({ foot }) => foot),
    offsets,
    line,
  );
  const found = all.map((one, index) => ({ ...one, x: places[index] ?? one.foot }));
  return {
    stations: found.flatMap((one) => ('station' in one ? [{ station: one.station, x: one.x, foot: one.foot }] : [])),
    gates: found.flatMap((one) => ('gate' in one ? [{ gate: one.gate, x: one.x, foot: one.foot }] : [])),
  };
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

function stripsOf(lives: readonly Life[], along: Along, top: number): readonly PlacedLife[] {
  const drawn = lives.map((life) => {
    const words = lifeInWords(life);
    const shape = strip(life, along);
    const room = (shape.gapTo ?? shape.to) - shape.from;
    const outside = room < widthOf(words) + 16;
    const end = (shape.gapTo ?? shape.to) + (outside ? widthOf(words) + 12 : 0);
    return { life, words, ...shape, outside, end };
  });
  const ordered = drawn.toSorted((a, b) => a.from - b.from || a.to - b.to);
  const rows = intoRows(
    ordered.map(({ from, end }) => ({ from, to: end })),
    14,
  );
  return ordered.map(({ end: _end, ...one }, index) => ({
    ...one,
    y: top + (rows[index] ?? 0) * rowPitch + 4,
    ticks: [...new Set(one.life.needed.map(({ at }) => along.at(at)))],
    ears: one.life.ends.slice(0, -1).flatMap((day) => (day <= along.axis.to ? [along.at(day)] : [])),
  }));
}

function flagsOf({ today, finish, target }: WayModel, { at }: Along): readonly Flag[] {
  const said = [
    { sort: 'today', day: today, words: `today, ${dayInWords(today)}` },
    { sort: 'finish', day: finish, words: `as it stands, done ${finish === undefined ? '' : dayInWords(finish)}` },
    { sort: 'target', day: target, words: `target, ${target === undefined ? '' : dayInWords(target)}` },
  ] as const;
  const known = said
    .flatMap(({ sort, day, words }) => (day === undefined ? [] : [{ sort, words, x: at(day) }]))
    .toSorted((a, b) => a.x - b.x);
  const rows = intoRows(
    known.map(({ x, words }) => ({ from: x, to: x + widthOf(words) + 14 })),
    6,
  );
  return known.map((one, index) => ({ ...one, row: rows[index] ?? 0 }));
}

/** Where months are narrow only every second or third is named. */
function monthsOf({ axis, at }: Along, day: number): SheetPlan['months'] {
  const each = Math.ceil(38 / (day * 30));
  return axis.months.map((month, index) => {
    const named = (Number(month.slice(5, 7)) - 1) % each === 0 && index < axis.months.length - 1;
    const narrow = day * 30 * each < 62;
    return { x: at(month), words: named ? monthInWords(month, index === 0, narrow) : '' };
  });
}

/** Lays the whole sheet out. Nothing in it overlaps: names are spread, strips and flags set in rows. */
export function layOut(model: WayModel, wish: SheetWish): SheetPlan {
  const axis = axisOf(model);
  const along: Along = { axis, at: (on) => left + daysBetween(axis.from, on) * wish.day };
  const end = left + axis.days * wish.day;
  const { stations, gates } = placed(model, along, [left + 12, end - 12]);
  const numbers = Math.round(longest(model) * Math.sin(slant)) + 28;
  const baseline = numbers + 64;
  const flags = flagsOf(model, along);
  const flagTop = baseline + 30;
  const top = flagTop + flagPitch * Math.max(1, ...flags.map(({ row }) => row + 1)) + 6;
  const lives = stripsOf(shownLives(model, wish), along, top);
  const bottom = Math.max(top + rowPitch * 3, ...lives.map(({ y }) => y + rowPitch)) + 2;
  const rightmost = Math.max(end, ...stations.map(({ x }) => x), ...gates.map(({ x }) => x));
  return {
    width: Math.ceil(Math.max(rightmost + overhang(model), ...flags.map(({ x, words }) => x + widthOf(words) + 20))),
    height: bottom + 24,
    end,
    numbers,
    baseline,
    profile: { top, bottom },
    flagTop,
    months: monthsOf(along, wish.day),
    weeks: axis.mondays.map(along.at),
    stations,
    gates,
    lives,
    flags,
    today: along.at(model.today),
    earlier: model.stations.length - stations.length,
  };
}
