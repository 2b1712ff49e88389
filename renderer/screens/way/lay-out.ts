import { addDays, type Day, dayInWords, daysBetween } from '../../../core/vocabulary/days.ts';
import { type Axis, axisOver, monthInWords } from './axis.ts';
import { drawnStations, gap, gateGap, nameHeight, reach, widthOf } from './measures.ts';
import type { Gate, Station, WayModel } from './model.ts';
import type { Along, Flag, SheetPlan, SheetWish } from './sheet-plan.ts';
import { intoRows, spread } from './spread.ts';
import { rowPitch, shownLives, stripsOf, wordsEnd } from './strips.ts';

const flagPitch = 18;
const left = 20;

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

/** The line the numbers stand on. */
function rowOver(end: number): readonly [number, number] {
  return [left + 12, end - 12];
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

/** Room behind the last day. */
const behind = 20;

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

/** What the sheet needs to the right: its axis, the last names, the words of the days and those behind strips. */
function needed(model: WayModel, { day, ...wish }: SheetWish): number {
  const axis = axisOf(model);
  const along: Along = { axis, at: (on) => left + daysBetween(axis.from, on) * day };
  const end = left + axis.days * day;
  const { stations, gates } = placed(model, along, rowOver(end));
  const names = [...stations, ...gates].map((one) => one.x + reach(one));
  const flags = flagsOf(model, along).map(({ x, words }) => x + widthOf(words) + 20);
  const lives = stripsOf(shownLives(model, { day, ...wish }), along, 0).map(wordsEnd);
  return Math.max(end + behind, ...names, ...flags, ...lives);
}

/** Width of a day at which the whole way stands in `width`, or in what its numbers need where that is more. */
export function fitting(model: WayModel, width: number): number {
  const { days } = axisOf(model);
  const row = drawnStations(model).length * gap + model.gates.length * gateGap;
  const least = Math.max(0.8, row / days);
  let day = Math.max(least, (width - left - behind) / days);
  // The last names may reach beyond the last day: the axis gives way to them, which moves them too.
  for (let turn = 0; turn < 4; turn += 1) {
    const over = needed(model, { day, endless: false, expected: false }) - width;
    if (over <= 0) break;
    day = Math.max(least, day - (over + 1) / days);
  }
  return day;
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
  const { stations, gates } = placed(model, along, rowOver(end));
  const numbers = nameHeight(model) + 28;
  const baseline = numbers + 64;
  const flags = flagsOf(model, along);
  const flagTop = baseline + 30;
  const top = flagTop + flagPitch * Math.max(1, ...flags.map(({ row }) => row + 1)) + 6;
  const lives = stripsOf(shownLives(model, wish), along, top);
  const bottom = Math.max(top + rowPitch * 3, ...lives.map(({ y }) => y + rowPitch)) + 2;
  return {
    width: Math.ceil(needed(model, wish)),
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
