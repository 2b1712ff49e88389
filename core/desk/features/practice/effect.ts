import { type Asked, readErrand, readHolds, readWay, toldOf } from '../../../readiness/index.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import type { Way, WayStop } from '../../../vocabulary/finding.ts';
import { moneyInWords } from '../../../vocabulary/money.ts';
import type { ErrandId } from '../../../vocabulary/practice.ts';
import type { EffectRow } from '../../contract/practice-answers.ts';
import { errandTitle, subjectTitle, titleFor } from '../asked.ts';

/** What the same lot is under two practices: one in use, one that is only tried. */
interface Tried {
  readonly before: Asked;
  readonly after: Asked;
}

function keyOf({ errand, subject }: WayStop): string {
  return `${errand} ${subject ?? ''}`;
}

function applies(stop: WayStop | undefined): stop is WayStop {
  return stop !== undefined && stop.state !== "doesn't apply";
}

function titleOf(stop: WayStop, asked: Asked): string {
  return titleFor(errandTitle(asked.practice, stop.errand), subjectTitle(asked.lot, stop.subject));
}

function comesOrGoes(old: WayStop | undefined, now: WayStop | undefined, tried: Tried): EffectRow | undefined {
  if (applies(now) && !applies(old)) {
    return { say: `${titleOf(now, tried.after)} comes in.`, way: 'harder' };
  }
  if (applies(old) && !applies(now)) return { say: `${titleOf(old, tried.before)} falls away.`, way: 'easier' };
  return undefined;
}

function moved(old: WayStop, now: WayStop, tried: Tried): readonly EffectRow[] {
  const title = titleOf(now, tried.after);
  const rows: EffectRow[] = [];
  if (old.state !== now.state) {
    rows.push({ say: `${title}: ${now.state} instead of ${old.state}.`, errand: now.errand, way: 'other' });
  }
  const [was, is] = [old.earliest, now.earliest];
  if (was !== undefined && is !== undefined && was !== is) {
    const say = `${title}: ${dayInWords(is)} at the earliest instead of ${dayInWords(was)}.`;
    rows.push({ say, errand: now.errand, way: is > was ? 'harder' : 'easier' });
  }
  return rows;
}

/** What they would say that they don't say now, and what they would say no more. */
function said(old: WayStop, now: WayStop, tried: Tried): readonly EffectRow[] {
  const told = (stop: WayStop, asked: Asked): ReadonlySet<string> =>
    new Set(
      toldOf(readErrand(stop.errand, { ...asked, subject: stop.subject }))
        .findings.filter(({ weight }) => weight !== 'good to know')
        .map(({ weight, say }) => `${weight}: ${say}`),
    );
  const [before, after] = [told(old, tried.before), told(now, tried.after)];
  const title = titleOf(now, tried.after);
  return [
    ...[...after]
      .filter((each) => !before.has(each))
      .map((each): EffectRow => ({ say: `${title}, ${each}`, errand: now.errand, way: 'harder' })),
    ...[...before]
      .filter((each) => !after.has(each))
      .map((each): EffectRow => ({ say: `${title}, no more ${each}`, errand: now.errand, way: 'easier' })),
  ];
}

/** An errand is read again only where its own rule or one of its papers' rules is another. */
function touched({ errand }: WayStop, { before, after }: Tried): boolean {
  const [old, now] = [before.practice.errands[errand], after.practice.errands[errand]];
  if (old === undefined || now === undefined) return false;
  if (JSON.stringify(old) !== JSON.stringify(now)) return true;
  const kinds = now.needs.flatMap((need) => need.kinds);
  return kinds.some(
    (kind) => JSON.stringify(before.practice.papers[kind]) !== JSON.stringify(after.practice.papers[kind]),
  );
}

function wholeRows(old: Way, now: Way): readonly EffectRow[] {
  const rows: EffectRow[] = [];
  if (old.finish !== now.finish && old.finish !== undefined && now.finish !== undefined) {
    const say = `The way ends ${dayInWords(now.finish)} instead of ${dayInWords(old.finish)}.`;
    rows.push({ say, way: now.finish > old.finish ? 'harder' : 'easier' });
  }
  if (old.feesKnown !== now.feesKnown) {
    const say = `Fees still to pay come to ${moneyInWords(now.feesKnown)} instead of ${moneyInWords(old.feesKnown)}.`;
    rows.push({ say, way: now.feesKnown > old.feesKnown ? 'harder' : 'easier' });
  }
  return rows;
}

function holdRows({ before, after }: Tried): readonly EffectRow[] {
  const [old, now] = [readHolds(before), readHolds(after)];
  const shut = (holds: typeof old, id: string): boolean =>
    holds.some(({ hold, waitsFor, happened }) => hold === id && waitsFor.length > 0 && happened === undefined);
  return [
    ...now
      .filter(({ hold }) => shut(now, hold) && !shut(old, hold))
      .map(({ title, waitsFor }): EffectRow => {
        const first = waitsFor.map((id) => errandTitle(after.practice, id)).join(', ');
        return { say: `${title}: it waits for ${first}.`, way: 'harder' };
      }),
    ...old
      .filter(({ hold }) => shut(old, hold) && !shut(now, hold))
      .map(({ title }): EffectRow => ({ say: `${title}: nothing on file holds it any more.`, way: 'easier' })),
  ];
}

/** What every errand but this one would say that it doesn't say now, or no more: what a change reached on the side. */
export function saidElsewhere(tried: Tried, own: ErrandId): readonly EffectRow[] {
  const was = new Map(readWay(tried.before).stops.map((stop) => [keyOf(stop), stop]));
  return readWay(tried.after).stops.flatMap((stop): readonly EffectRow[] => {
    const old = was.get(keyOf(stop));
    if (stop.errand === own || !applies(stop) || !applies(old) || !touched(stop, tried)) return [];
    return said(old, stop, tried);
  });
}

/** Everything that would be otherwise on this lot: errands, days, what offices would say, holds, fees, the end. */
export function effectOf(tried: Tried): readonly EffectRow[] {
  const [old, now] = [readWay(tried.before), readWay(tried.after)];
  const stops = new Map(old.stops.map((stop) => [keyOf(stop), stop]));
  const here = new Set(now.stops.map(keyOf));
  const rows = now.stops.flatMap((stop): readonly EffectRow[] => {
    const was = stops.get(keyOf(stop));
    const change = comesOrGoes(was, stop, tried);
    if (change !== undefined) return [change];
    if (!applies(was) || !applies(stop)) return [];
    return [...moved(was, stop, tried), ...(touched(stop, tried) ? said(was, stop, tried) : [])];
  });
  const gone = old.stops
    .filter((stop) => !here.has(keyOf(stop)))
    .flatMap((stop) => comesOrGoes(stop, undefined, tried) ?? []);
  return [...wholeRows(old, now), ...holdRows(tried), ...gone, ...rows];
}
