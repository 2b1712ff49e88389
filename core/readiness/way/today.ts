import type { Day } from '../../vocabulary/days.ts';
import type { WayStop } from '../../vocabulary/finding.ts';
import type { ErrandId, KindId } from '../../vocabulary/practice.ts';
import { openFrom, plusDays, plusSpan } from '../calendar.ts';
import { currentEntry } from '../current.ts';
import { examine } from '../examine.ts';
import { errandOf, happenedOn, kindOf, type Standpoint } from '../standpoint.ts';
import { validityAt } from '../validity.ts';
import { type Dated, isOver } from './dating.ts';
import type { Graph, Node } from './graph.ts';

/** When the shortest-lived paper of an errand would lapse, were it back on `done`; undefined where it lasts. */
function wouldLapse(at: Standpoint, kinds: readonly KindId[], done: Day): Day | undefined {
  const ends = kinds.flatMap((kind) => {
    const rule = kindOf(at, kind);
    if (rule?.extension !== undefined) return [];
    return (rule?.clocks ?? []).flatMap((clock) =>
      clock.sort === 'lasts' && clock.when === undefined ? [plusSpan(done, clock.span, at.rules.calendar)] : [],
    );
  });
  return ends.toSorted()[0];
}

/** Nobody makes the same trip twice: an errand whose paper would lapse before its first use can wait. */
export function tooSoon(
  at: Standpoint,
  node: Node,
  given: { dates: ReadonlyMap<string, Dated>; graph: Graph },
): WayStop['tooSoon'] {
  const { yields } = node.one.errand;
  const dated = given.dates.get(node.key);
  if (dated === undefined || node.examined.state !== 'can go') return undefined;
  const lapses = wouldLapse(at, yields, dated.done);
  const uses = given.graph.nodes.flatMap((other) => {
    const wants = other.one.errand.needs.some((need) => need.kinds.some((kind) => yields.includes(kind)));
    return wants && !isOver(other) && other.key !== node.key ? (given.dates.get(other.key)?.earliest ?? []) : [];
  });
  const neededFrom = uses.toSorted()[0];
  if (lapses === undefined || neededFrom === undefined || lapses >= neededFrom) return undefined;
  return { lapses, neededFrom };
}

/** More time is asked for when the last day to ask comes near, not on every day a paper is held. */
const askAheadDays = 60;

/** Nothing still to come asks for the paper: what did lies with its office, and no duty keeps it alive. */
function isSpent(at: Standpoint, kind: KindId, given: { self: ErrandId; stops: readonly WayStop[] }): boolean {
  const duties = at.rules.dutiesOf.get(kind) ?? [];
  const wanters = new Set((at.rules.wanters.get(kind) ?? []).map(({ id }) => id));
  // What no rule ever asks for is kept for a reason only the owner knows.
  if (duties.length === 0 && wanters.size === 0) return false;
  if (duties.some(({ to }) => happenedOn(at, to) === undefined)) return false;
  return !given.stops.some(
    ({ errand, state }) =>
      errand !== given.self &&
      wanters.has(errand) &&
      (state === 'can go' || state === "can't go yet" || state === 'sent back'),
  );
}

/** True where an errand only lengthens the life of papers that have plenty left, or that nobody asks for any more. */
function canWait(at: Standpoint, { errand, subject }: WayStop, stops: readonly WayStop[]): boolean {
  const yields = at.practice.errands[errand]?.yields ?? [];
  const soon = plusDays(at.day, askAheadDays);
  const hasTime = (kind: KindId): boolean => {
    const longer = at.rules.extended.get(kind);
    const entry = longer === undefined ? undefined : currentEntry(at, { kind: longer, subject });
    if (longer === undefined || entry === undefined) return false;
    if (isSpent(at, longer, { self: errand, stops })) return true;
    const { through } = validityAt(at, entry);
    return through === 'for good' || (through !== 'unknown' && through !== 'ended' && through > soon);
  };
  return yields.length > 0 && yields.every(hasTime);
}

/** Refused for more than their own comments: answering those is what the going is for. */
function turnedAwayElse(at: Standpoint, { errand, subject, heaviest }: WayStop): boolean {
  if (heaviest !== 'refused') return false;
  const { needs, ahead, agreements } = examine(at, { errand: errandOf(at, errand), subject });
  const problems = [...needs.flatMap((draft) => draft.problems), ...ahead, ...agreements];
  return problems.some(({ weight, sort }) => weight === 'refused' && sort !== 'not answered');
}

/** What can be done on the first open day: the tightest first. */
export function todayOf(at: Standpoint, stops: readonly WayStop[]): readonly ErrandId[] {
  const open = openFrom(at.day, at.rules.calendar);
  const ready = stops.filter(
    (stop) =>
      (stop.state === 'can go' || (stop.state === 'sent back' && !turnedAwayElse(at, stop))) &&
      stop.earliest === open &&
      stop.tooSoon === undefined &&
      !canWait(at, stop, stops),
  );
  const tightest = ready.toSorted((a, b) => (a.spare ?? 0) - (b.spare ?? 0));
  return [...new Set(tightest.map((stop) => stop.errand))];
}
