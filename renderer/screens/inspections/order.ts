import type { GateRow, InspectionRow, InspectionsAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';

/** Which stands first: booked, then what can be gone on now, those sent back before others; else the first that comes. */
function rank({ booked, state, earliest }: InspectionRow, day: Day): number {
  if (booked !== undefined) return 0;
  if (earliest === undefined || earliest > day) return 3;
  return state === 'sent back' ? 1 : state === 'can go' ? 2 : 3;
}

/** The inspection that comes next; undefined where all are behind us. */
export function nextOf({ rows, day }: InspectionsAnswer): InspectionRow | undefined {
  const ahead = rows.filter(({ state }) => state !== 'settled');
  return ahead.toSorted((a, b) => {
    const byRank = rank(a, day) - rank(b, day);
    if (byRank !== 0) return byRank;
    const [first, second] = [a.booked?.day ?? a.earliest ?? '9999', b.booked?.day ?? b.earliest ?? '9999'];
    return first < second ? -1 : first > second ? 1 : 0;
  })[0];
}

export interface Gates {
  /** Done while they were shut: nobody can undo it, somebody has to be told. */
  readonly broken: readonly GateRow[];
  /** Shut and still before us, the nearest first. */
  readonly shut: readonly GateRow[];
  /** All they wait for is recorded as passed or settled. */
  readonly recorded: readonly GateRow[];
}

/** The gates by how near they are: by the first day on which something they wait for can be gone on. */
export function gatesOf({ gates, rows }: InspectionsAnswer): Gates {
  const near = ({ rests }: GateRow): string => {
    const days = rests
      .filter(({ settled }) => !settled)
      .flatMap(({ errand, subject }) => {
        const row = rows.find((each) => each.errand === errand && each.subject === subject);
        return row?.booked?.day ?? row?.earliest ?? [];
      });
    return days.toSorted()[0] ?? '9999';
  };
  const shut = gates.filter((gate) => gate.shut && gate.happened === undefined);
  return {
    broken: gates.filter((gate) => gate.shut && gate.happened !== undefined),
    shut: shut.toSorted((a, b) => (near(a) < near(b) ? -1 : near(a) > near(b) ? 1 : 0)),
    recorded: gates.filter((gate) => !gate.shut),
  };
}
