import { type Day, earliest, latest, type Span } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { openFrom, plusSpan } from '../calendar.ts';
import { latestVisit } from '../errand-case.ts';
import type { Standpoint } from '../standpoint.ts';
import type { Graph, Node } from './graph.ts';

/** When an errand can be gone on and when its papers should be back, at the office's slow end. */
export interface Dated {
  readonly earliest: Day;
  readonly done: Day;
}

export interface Dating {
  readonly dates: ReadonlyMap<string, Dated>;
  /** Errands that wait for each other; empty where none do. */
  readonly loop: readonly Node[];
}

export function isOver(node: Node): boolean {
  return node.examined.state === 'settled' || node.examined.state === "doesn't apply";
}

export function slowEnd(node: Node): Span {
  return node.one.errand.takes?.to ?? {};
}

/** The open day on which papers handed in on `start` are back. */
export function backFrom(at: Standpoint, node: Node, start: Day): Day {
  return openFrom(plusSpan(start, slowEnd(node), at.rules.calendar), at.rules.calendar);
}

/** When something left with an office was to be back; undefined where nobody knows how long they take. */
export function dueBack(at: Standpoint, node: Node): Day | undefined {
  const visit = node.examined.state === 'left with them' ? latestVisit(at, node.one) : undefined;
  return visit === undefined || node.one.errand.takes === undefined ? undefined : backFrom(at, node, visit.day);
}

function dateOf(at: Standpoint, node: Node, dates: ReadonlyMap<string, Dated>): Dated | undefined {
  const visit = latestVisit(at, node.one);
  if (node.examined.state === 'left with them' && visit !== undefined) {
    const done = latest(backFrom(at, node, visit.day), openFrom(at.day, at.rules.calendar));
    return { earliest: visit.day, done };
  }
  let start = openFrom(at.day, at.rules.calendar);
  for (const group of node.groups) {
    let first: Day | undefined;
    for (const key of group) {
      const done = dates.get(key)?.done;
      if (done !== undefined && (first === undefined || done < first)) first = done;
    }
    if (first === undefined) return undefined;
    if (first > start) start = first;
  }
  const open = openFrom(start, at.rules.calendar);
  return { earliest: open, done: backFrom(at, node, open) };
}

/** Follows what isn't dated from errand to errand until one comes up twice: the members of the loop. */
function loopAmong(undated: ReadonlyMap<string, Node>): readonly Node[] {
  const path: Node[] = [];
  let node = undated.values().next().value;
  while (node !== undefined && !path.includes(node)) {
    path.push(node);
    const stuck = node.groups.find((group) => group.every((key) => undated.has(key)));
    node = undated.get(stuck?.[0] ?? '');
  }
  return node === undefined ? path : path.slice(path.indexOf(node));
}

/** Says a loop with its members: a mistake in the practice, since somebody could never begin. */
export function tellLoop(loop: readonly Node[]): never {
  const titles = loop.map((node) => `"${node.one.errand.title}"`);
  const [first = 'an errand'] = titles;
  throw new LotfileError(
    'bad practice',
    `These errands wait for each other: ${[...titles, first].join(' waits for ')}.`,
    {
      about: 'local practice',
      next: 'Split one of them into handing in and picking up, or make one of the papers optional.',
    },
  );
}

/**
 * Longest-path dating where a need may be met by any of several errands: the errand that is back first is dated
 * first (Knuth's generalisation of Dijkstra's algorithm), so every date stands when it is written.
 * Errands that wait for each other get no date; `loop` names the members of one such ring.
 */
export function dateGraph(at: Standpoint, graph: Graph): Dating {
  const dates = new Map<string, Dated>();
  const undated = new Map(graph.nodes.filter((node) => !isOver(node)).map((node) => [node.key, node]));
  const ready = new Map<string, Dated>();
  const waiters = waitersOf(undated);
  const consider = (node: Node): void => {
    if (dates.has(node.key)) return;
    const dated = dateOf(at, node, dates);
    if (dated !== undefined) ready.set(node.key, dated);
  };
  for (const node of undated.values()) consider(node);
  while (ready.size > 0) {
    const [key, dated] = firstBack(ready);
    ready.delete(key);
    undated.delete(key);
    dates.set(key, dated);
    for (const waiter of waiters.get(key) ?? []) consider(waiter);
  }
  return { dates, loop: undated.size === 0 ? [] : loopAmong(undated) };
}

function waitersOf(nodes: ReadonlyMap<string, Node>): ReadonlyMap<string, readonly Node[]> {
  const waiters = new Map<string, Node[]>();
  for (const node of nodes.values()) {
    for (const key of new Set(node.groups.flat())) waiters.set(key, [...(waiters.get(key) ?? []), node]);
  }
  return waiters;
}

function firstBack(ready: ReadonlyMap<string, Dated>): readonly [string, Dated] {
  let best: readonly [string, Dated] | undefined;
  for (const entry of ready) {
    if (best === undefined || entry[1].done < best[1].done) best = entry;
  }
  if (best === undefined) throw new LotfileError('internal', 'No errand was left to date.');
  return best;
}

/** The day by which every group is met. */
export function groupsMet(groups: Node['groups'], dates: ReadonlyMap<string, Dated>, from: Day): Day {
  return groups.reduce((day, group) => {
    const back = group.flatMap((key) => dates.get(key)?.done ?? []);
    return back.length === 0
      ? day
      : latest(
          day,
          back.reduce((first, other) => earliest(first, other)),
        );
  }, from);
}
