import type { Day } from '../../../core/vocabulary/days.ts';
import { beginsOf } from '../../kit/begins.ts';
import { byDay } from './axis.ts';
import { livesOf } from './lives.ts';
import type { Gate, Station, WayModel, WayRow, WaySources } from './model.ts';

export function keyOf({ errand, subject }: { readonly errand: string; readonly subject?: string | undefined }): string {
  return subject === undefined ? errand : `${errand}:${subject}`;
}

/** The newest day on a paper a settled errand brought: the nearest thing to the day it was settled. */
function settledOn(row: WayRow, { way, papers, practice, subjects }: WaySources): Day | undefined {
  const yields = practice?.errands[row.errand]?.yields ?? [];
  // Papers name what they are kept for by its title.
  const title = subjects.find(({ id }) => id === row.subject)?.title;
  return papers
    .filter(({ kind, subject }) => yields.includes(kind) && (row.subject === undefined || subject === title))
    .flatMap((row) => beginsOf(row) ?? [])
    .filter((day) => day <= way.day)
    .toSorted(byDay)
    .at(-1);
}

function datedBy(row: WayRow, known: Day | undefined): Station['dated'] {
  if (known === undefined) return 'not';
  return (row.earliest ?? row.settled) === undefined ? 'by its paper' : 'surely';
}

function stationsOf(sources: WaySources): readonly Station[] {
  const { way } = sources;
  const rows = way.stops.filter(({ state }) => state !== "doesn't apply");
  let before: Day | undefined;
  const placed = rows.map((row) => {
    const known = row.earliest ?? row.settled ?? settledOn(row, sources);
    const at = known ?? before ?? way.day;
    before = at;
    return { row, at, dated: datedBy(row, known) };
  });
  const ordered = placed.toSorted((a, b) => byDay(a.at, b.at));
  return ordered.map(({ row, at, dated }, index) => ({
    key: keyOf(row),
    number: index + 1,
    row,
    title: row.title,
    state: row.state,
    at,
    dated,
    stretch: row.stretch ?? '',
    waitsFor: ordered.filter((other) => row.waitsFor.includes(other.row.errand)).map((other) => keyOf(other.row)),
  }));
}

function gatesOf({ way }: WaySources, stations: readonly Station[]): readonly Gate[] {
  return way.holds.map(({ hold, title, say, waitsFor, unknown }) => {
    const before = stations.filter((station) => waitsFor.includes(station.title));
    const opens = before.map(({ row, at }) => row.done ?? at).toSorted(byDay);
    return { key: hold, title, say, waitsFor, unknown, opens: opens.at(-1) };
  });
}

/** Stretches by where their errands stand on the average: one early errand does not move a stretch. */
function stretchesOf(stations: readonly Station[]): readonly string[] {
  const places = Map.groupBy(stations, ({ stretch }) => stretch);
  const middle = (members: readonly Station[]): number =>
    members.reduce((sum, { number }) => sum + number, 0) / members.length;
  return [...places].toSorted(([, a], [, b]) => middle(a) - middle(b)).map(([stretch]) => stretch);
}

/** Everything the sheet and the list show, out of what the desk answered. */
export function modelOf(sources: WaySources): WayModel {
  const { way, target } = sources;
  const stations = stationsOf(sources);
  return {
    today: way.day,
    finish: way.finish,
    target,
    stations,
    aside: way.stops.filter(({ state }) => state === "doesn't apply"),
    gates: gatesOf(sources, stations),
    lives: livesOf(sources, stations),
    stretches: stretchesOf(stations),
  };
}
