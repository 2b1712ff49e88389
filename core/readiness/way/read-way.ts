import type { Day } from '../../vocabulary/days.ts';
import type { Way, WayStop } from '../../vocabulary/finding.ts';
import type { EventId, KindId } from '../../vocabulary/practice.ts';
import { openFrom, plusSpan } from '../calendar.ts';
import { feeDueOf } from '../fee-due.ts';
import { asFarAsKnown, heaviest } from '../problem.ts';
import { type Asked, happenedOn, indexLot, remembered, type Standpoint } from '../standpoint.ts';
import { type Dated, type Dating, dateGraph, dueBack, groupsMet, isOver, tellLoop } from './dating.ts';
import { type Graph, graphOf, type Node } from './graph.ts';
import { type IdleReading, idleClocksOf, restartsOf } from './restarts.ts';
import { spareDays } from './spare.ts';
import { todayOf, tooSoon } from './today.ts';

/** The graph with its dates: what remedies and duties ask. */
export interface DatedGraph extends Dating {
  readonly graph: Graph;
}

const datedGraph = remembered((at: Standpoint, _key: string): DatedGraph => {
  const graph = graphOf(at);
  return { graph, ...dateGraph(at, graph) };
});

export function datedGraphAt(at: Standpoint): DatedGraph {
  return datedGraph(at, '');
}

/** When an event is to be expected: the day it happened, or when all it waits for is back. */
export function expectedDay(at: Standpoint, event: EventId): Day {
  const happened = happenedOn(at, event);
  if (happened !== undefined) return happened;
  const { graph, dates } = datedGraphAt(at);
  return groupsMet(graph.eventGroups(event), dates, openFrom(at.day, at.rules.calendar));
}

/** Papers that are good today and will have lapsed, margin included, on the day this errand can first be gone on. */
function lapsesFirst(at: Standpoint, node: Node, dated: Dated | undefined): readonly KindId[] {
  if (dated === undefined || node.examined.state === 'left with them') return [];
  const kinds = node.examined.needs.flatMap(({ need, reading, unmet }) => {
    const through = reading.validity?.through;
    if (unmet || through === undefined || through === 'for good' || through === 'unknown' || through === 'ended')
      return [];
    const until =
      need.goodFor === undefined ? dated.earliest : plusSpan(dated.earliest, need.goodFor, at.rules.calendar);
    return through < until && need.use !== 'bring home' ? [reading.kind] : [];
  });
  return [...new Set(kinds)];
}

function stopOf(
  at: Standpoint,
  node: Node,
  given: { dates: ReadonlyMap<string, Dated>; spare: ReadonlyMap<string, number>; graph: Graph },
): WayStop {
  const dated = given.dates.get(node.key);
  const { applies, state, needs, ahead, agreements } = node.examined;
  const over = isOver(node);
  const told = [...needs.flatMap((draft) => draft.problems), ...ahead, ...agreements].map((problem) =>
    asFarAsKnown(applies, problem),
  );
  const waitsFor = node.groups.flat().flatMap((key) => given.graph.byKey.get(key)?.one.errand.id ?? []);
  return {
    errand: node.one.errand.id,
    subject: node.one.subject,
    state,
    earliest: over ? undefined : dated?.earliest,
    done: over ? undefined : dated?.done,
    due: dueBack(at, node),
    spare: given.spare.get(node.key),
    waitsFor: [...new Set(waitsFor)],
    lapsesFirst: over ? [] : lapsesFirst(at, node, dated),
    tooSoon: tooSoon(at, node, given),
    heaviest: over ? undefined : heaviest(told),
  };
}

const phase = (stop: WayStop): number => (stop.state === 'settled' ? 0 : stop.state === "doesn't apply" ? 2 : 1);

/** Settled ones first, then by the day they can be gone on, those that don't apply last; practice order within. */
function inOrder(at: Standpoint, stops: readonly WayStop[]): readonly WayStop[] {
  const place = (stop: WayStop): number => at.rules.place.get(stop.errand) ?? 0;
  return stops.toSorted((a, b) => {
    const byPhase = phase(a) - phase(b);
    if (byPhase !== 0) return byPhase;
    const [first, second] = [a.earliest ?? '', b.earliest ?? ''];
    if (first !== second) return first < second ? -1 : 1;
    if (a.waitsFor.includes(b.errand)) return 1;
    if (b.waitsFor.includes(a.errand)) return -1;
    return place(a) - place(b);
  });
}

/** Fees of what is still to be gone on; of what was sent back only the price of coming again, for the rest was paid. */
function feesOf(at: Standpoint, nodes: readonly Node[]): Pick<Way, 'feesKnown' | 'feesUnknown'> {
  const fees = nodes.flatMap(({ one, examined: { state } }) => {
    const due = feeDueOf(at, one);
    const ahead =
      state === 'can go' || state === "can't go yet" || (state === 'sent back' && (due.again || due.unpaid === true));
    return ahead ? [due.fee] : [];
  });
  return {
    feesKnown: fees.reduce<number>((sum, fee) => sum + (fee ?? 0), 0),
    feesUnknown: fees.filter((fee) => fee === undefined).length,
  };
}

/**
 * The whole graph for a lot, dated in the office's slow time: each errand's state, earliest day, days to spare
 * against the target, papers that lapse before they are needed, fees, and what can be done today.
 * @throws LotfileError 'bad practice' where errands wait for each other in a loop.
 */
export function readWay(asked: Asked): Way {
  return wayAt(indexLot(asked));
}

const wayOnce = remembered((at: Standpoint, _key: string): Way => {
  const { graph, dates, loop } = datedGraphAt(at);
  if (loop.length > 0) tellLoop(loop);
  const spare = spareDays(at, graph, dates);
  const stops = inOrder(
    at,
    graph.nodes.map((node) => stopOf(at, node, { dates, spare, graph })),
  );
  const finish = graph.nodes
    .flatMap(({ key, one }) => (one.errand.afterTarget === true ? [] : (dates.get(key)?.done ?? [])))
    .reduce<Day | undefined>((last, day) => (last === undefined || day > last ? day : last), undefined);
  return {
    day: at.day,
    stops,
    today: todayOf(at, stops),
    finish,
    ...feesOf(at, graph.nodes),
    restarts: restartsOf(at, graph, dates),
  };
});

/** Every idle clock that runs, until when, and the cheapest inspection still to come that starts it anew. */
export function readIdleClocks(asked: Asked): readonly IdleReading[] {
  const at = indexLot(asked);
  const { graph, dates } = datedGraphAt(at);
  return idleClocksOf(at, graph, dates);
}

export function wayAt(at: Standpoint): Way {
  return wayOnce(at, '');
}
