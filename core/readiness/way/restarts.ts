import type { Day } from '../../vocabulary/days.ts';
import type { Way } from '../../vocabulary/finding.ts';
import type { EditionId, SubjectId } from '../../vocabulary/lot.ts';
import type { Clock, ErrandId, KindId, PaperKind } from '../../vocabulary/practice.ts';
import { appliesAt } from '../condition-at.ts';
import { currentEntry } from '../current.ts';
import { feeDueOf } from '../fee-due.ts';
import type { Standpoint } from '../standpoint.ts';
import { validityAt } from '../validity.ts';
import { lastRestart } from '../visits.ts';
import { type Dated, isOver } from './dating.ts';
import type { Graph, Node } from './graph.ts';

type IdleClock = Extract<Clock, { readonly sort: 'idle' }>;

/** An idle clock that runs on a paper, and the cheapest inspection still to come that starts it anew. */
export interface IdleReading {
  readonly kind: KindId;
  readonly edition: EditionId;
  readonly clock: IdleClock;
  /** The last good day, unless an inspection comes before. */
  readonly through: Day;
  /** The inspection it runs from; undefined where none was made yet and it runs from the day of issue. */
  readonly since: Day | undefined;
  readonly restart:
    | {
        readonly errand: ErrandId;
        readonly subject: SubjectId | undefined;
        readonly earliest: Day | undefined;
        /** It can be gone on before the clock ends. */
        readonly inTime: boolean;
      }
    | undefined;
}

function idleClockOf(at: Standpoint, { clocks }: PaperKind): IdleClock | undefined {
  return clocks.find((clock): clock is IdleClock => clock.sort === 'idle' && appliesAt(at, clock.when) !== false);
}

/** Cheapest that comes in time; then the earliest. An inspection with no fee named is taken as paid with the permit. */
function cheapest(
  at: Standpoint,
  nodes: readonly Node[],
  { dates, by }: { readonly dates: ReadonlyMap<string, Dated>; readonly by: Day },
): Node | undefined {
  const fee = ({ one }: Node): number => feeDueOf(at, one).fee ?? 0;
  const start = (node: Node): Day | undefined => dates.get(node.key)?.earliest;
  const inTime = nodes.filter((node) => (start(node) ?? '9999') <= by);
  const sorted = (inTime.length > 0 ? inTime : nodes).toSorted((a, b) => {
    const byFee = fee(a) - fee(b);
    const byDay = (start(a) ?? '') < (start(b) ?? '') ? -1 : 1;
    return inTime.length > 0 && byFee !== 0 ? byFee : byDay;
  });
  return sorted[0];
}

/** Every idle clock that runs on a paper that counts, with what would start it anew. */
export function idleClocksOf(at: Standpoint, graph: Graph, dates: ReadonlyMap<string, Dated>): readonly IdleReading[] {
  return Object.values(at.practice.papers).flatMap((kind): readonly IdleReading[] => {
    const clock = idleClockOf(at, kind);
    const entry = currentEntry(at, { kind: kind.id });
    if (clock === undefined || entry === undefined) return [];
    const validity = validityAt(at, entry);
    const through = validity.clocks.find(({ label }) => label === clock.label)?.through;
    if (validity.through === 'ended' || through === undefined) return [];
    if (through === 'for good' || through === 'unknown' || through === 'ended') return [];
    const nodes = graph.nodes.filter((node) => !isOver(node) && node.one.errand.restarts.includes(kind.id));
    const node = cheapest(at, nodes, { dates, by: through });
    const earliest = node === undefined ? undefined : dates.get(node.key)?.earliest;
    const inTime = earliest !== undefined && earliest <= through;
    return [
      {
        kind: kind.id,
        edition: entry.edition.id,
        clock,
        through,
        since: lastRestart(at, kind.id, clock.since),
        restart:
          node === undefined ? undefined : { errand: node.one.errand.id, subject: node.one.subject, earliest, inTime },
      },
    ];
  });
}

/** For each idle clock that runs: the cheapest inspection still to come that restarts it, and by when. */
export function restartsOf(at: Standpoint, graph: Graph, dates: ReadonlyMap<string, Dated>): Way['restarts'] {
  return idleClocksOf(at, graph, dates).flatMap(({ kind, through, restart }) =>
    restart === undefined ? [] : [{ kind, errand: restart.errand, by: through }],
  );
}
