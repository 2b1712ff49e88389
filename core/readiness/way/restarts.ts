import type { Day } from '../../vocabulary/days.ts';
import type { Way } from '../../vocabulary/finding.ts';
import type { Clock, KindId } from '../../vocabulary/practice.ts';
import { appliesAt } from '../condition-at.ts';
import { currentEntry } from '../current.ts';
import type { Standpoint } from '../standpoint.ts';
import { validityAt } from '../validity.ts';
import { type Dated, isOver } from './dating.ts';
import type { Graph, Node } from './graph.ts';

/** The last good day of the idle clock that runs on the current edition. */
function idleEnd(at: Standpoint, kind: KindId, clocks: readonly Clock[]): Day | undefined {
  const idle = clocks.find((clock) => clock.sort === 'idle' && appliesAt(at, clock.when) !== false);
  const entry = currentEntry(at, { kind });
  if (idle === undefined || entry === undefined) return undefined;
  const validity = validityAt(at, entry);
  if (validity.through === 'ended') return undefined;
  const through = validity.clocks.find((clock) => clock.label === idle.label)?.through;
  return through === undefined || through === 'for good' || through === 'unknown' || through === 'ended'
    ? undefined
    : through;
}

/** Cheapest that comes in time; then the earliest. An inspection with no fee named is taken as paid with the permit. */
function cheapest(nodes: readonly Node[], dates: ReadonlyMap<string, Dated>, by: Day): Node | undefined {
  const start = (node: Node): Day | undefined => dates.get(node.key)?.earliest;
  const inTime = nodes.filter((node) => (start(node) ?? '9999') <= by);
  const sorted = (inTime.length > 0 ? inTime : nodes).toSorted((a, b) => {
    const byFee = (a.one.errand.fee ?? 0) - (b.one.errand.fee ?? 0);
    const byDay = (start(a) ?? '') < (start(b) ?? '') ? -1 : 1;
    return inTime.length > 0 && byFee !== 0 ? byFee : byDay;
  });
  return sorted[0];
}

/** For each idle clock that runs: the cheapest inspection still to come that restarts it, and by when. */
export function restartsOf(at: Standpoint, graph: Graph, dates: ReadonlyMap<string, Dated>): Way['restarts'] {
  return Object.values(at.practice.papers).flatMap((kind) => {
    const by = idleEnd(at, kind.id, kind.clocks);
    if (by === undefined) return [];
    const nodes = graph.nodes.filter((node) => !isOver(node) && node.one.errand.restarts.includes(kind.id));
    const node = cheapest(nodes, dates, by);
    return node === undefined ? [] : [{ kind: kind.id, errand: node.one.errand.id, by }];
  });
}
