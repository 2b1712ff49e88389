import { type Day, negated } from '../../vocabulary/days.ts';
import { daysFrom, openFrom, openUntil, plusDays, plusSpan } from '../calendar.ts';
import type { Standpoint } from '../standpoint.ts';
import { backFrom, type Dated, isOver, slowEnd } from './dating.ts';
import type { Graph, Node } from './graph.ts';

/** Last open day on which it can be handed in so that it is back by `by`. */
function lastStart(at: Standpoint, node: Node, by: Day): Day {
  const { calendar } = at.rules;
  let start = openUntil(plusSpan(by, negated(slowEnd(node)), calendar), calendar);
  while (backFrom(at, node, start) > by) start = openUntil(plusDays(start, -1), calendar);
  for (;;) {
    const later = openFrom(plusDays(start, 1), calendar);
    if (later > by || backFrom(at, node, later) > by) return start;
    start = later;
  }
}

/** The errand of a group that the dating leaned on: the one that is back first. */
function leanedOn(group: readonly string[], dates: ReadonlyMap<string, Dated>): string | undefined {
  let best: string | undefined;
  for (const key of group) {
    const done = dates.get(key)?.done;
    const known = best === undefined ? undefined : dates.get(best)?.done;
    if (done !== undefined && (known === undefined || done < known)) best = key;
  }
  return best;
}

/**
 * Calendar days each errand may slip without moving the target, by a pass back from the target.
 * Negative where the target can't be met even if everything goes as dated.
 */
export function spareDays(
  at: Standpoint,
  graph: Graph,
  dates: ReadonlyMap<string, Dated>,
): ReadonlyMap<string, number> {
  const spare = new Map<string, number>();
  const { target } = at.lot;
  if (target === undefined) return spare;
  const by = new Map<string, Day>();
  const order = graph.nodes
    .filter((node) => !isOver(node))
    .toSorted(
      (a, b) =>
        compare(dates.get(b.key)?.done, dates.get(a.key)?.done) ||
        compare(dates.get(b.key)?.earliest, dates.get(a.key)?.earliest),
    );
  for (const node of topological(order, dates)) {
    if (node.one.errand.afterTarget === true) continue;
    const due = by.get(node.key) ?? openUntil(target, at.rules.calendar);
    const dated = dates.get(node.key);
    if (dated === undefined) continue;
    if (node.examined.state === 'left with them') {
      spare.set(node.key, daysFrom(dated.done, due));
      continue;
    }
    const start = lastStart(at, node, due);
    spare.set(node.key, daysFrom(dated.earliest, start));
    for (const group of node.groups) {
      const key = leanedOn(group, dates);
      if (key !== undefined && (by.get(key) ?? start) >= start) by.set(key, start);
    }
  }
  return spare;
}

function compare(a: Day | undefined, b: Day | undefined): number {
  return (a ?? '') < (b ?? '') ? -1 : (a ?? '') > (b ?? '') ? 1 : 0;
}

/** Those who wait come before those they lean on; errands that take no time share dates, so dates alone can't order them. */
function topological(order: readonly Node[], dates: ReadonlyMap<string, Dated>): readonly Node[] {
  const byKey = new Map(order.map((node) => [node.key, node]));
  const waiters = new Map<string, Node[]>();
  for (const node of order) {
    for (const group of node.groups) {
      const key = leanedOn(group, dates);
      if (key !== undefined) waiters.set(key, [...(waiters.get(key) ?? []), node]);
    }
  }
  const sorted: Node[] = [];
  const seen = new Set<string>();
  const visit = (node: Node): void => {
    if (seen.has(node.key)) return;
    seen.add(node.key);
    for (const waiter of waiters.get(node.key) ?? []) visit(waiter);
    sorted.push(node);
  };
  for (const node of byKey.values()) visit(node);
  return sorted;
}
