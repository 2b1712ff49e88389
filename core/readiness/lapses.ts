import { type Day, daysBetween, isDay } from '../vocabulary/days.ts';
import type { Finding } from '../vocabulary/finding.ts';
import type { Basis, Errand } from '../vocabulary/practice.ts';
import { plusDays } from './calendar.ts';
import { currentEntry } from './current.ts';
import { dutiesAt } from './duties.ts';
import type { Entry } from './lot-index.ts';
import { officeTitle, paperTitle } from './need-case.ts';
import { ownLapses } from './own-lapses.ts';
import { kindApplies, lapsingDays } from './paper-state.ts';
import { byWeight, type Mend, type Problem } from './problem.ts';
import { findingOf } from './remedy.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { dueBack, isOver } from './way/dating.ts';
import { datedGraphAt, wayAt } from './way/read-way.ts';
import { dayWords } from './words.ts';

/** A paper that lapses soon, by when, and what to do about it. */
export interface Lapse {
  readonly finding: Finding;
  /** Its last good day. */
  readonly by: Day;
  /** The last day to ask for more time, where practice knows one. */
  readonly askBy?: Day | undefined;
}

interface Use {
  readonly errand: Errand;
  readonly from: Day | undefined;
}

/** Errands still to come that need the kind, with the first day each can be gone on. */
function usesOf(at: Standpoint, entry: Entry): readonly Use[] {
  const { graph, dates } = datedGraphAt(at);
  const wanters = new Set((at.rules.wanters.get(entry.paper.kind) ?? []).map(({ id }) => id));
  return graph.nodes.flatMap((node) => {
    const wants = wanters.has(node.one.errand.id) && !isOver(node) && node.examined.state !== 'left with them';
    const uses = node.examined.needs.some(({ reading }) => reading.edition === entry.edition.id);
    return wants && uses ? [{ errand: node.one.errand, from: dates.get(node.key)?.earliest }] : [];
  });
}

function mendOf(at: Standpoint, { paper }: Entry): Mend {
  const { kind, subject } = paper;
  const restart = wayAt(at).restarts.find((one) => one.kind === kind);
  if (restart !== undefined) return { do: 'settle', errand: restart.errand, subject: undefined };
  return { do: 'get', kind: kindOf(at, kind)?.extension?.by ?? kind, subject };
}

interface Pending {
  readonly errand: Errand;
  readonly due: Day;
}

/** An errand that lies with its office, was shown this paper, and may not be done before it lapses: pits under a ticket. */
function pendingUse(at: Standpoint, entry: Entry, through: Day): Pending | undefined {
  for (const node of datedGraphAt(at).graph.nodes) {
    const { errand } = node.one;
    const due = node.examined.state === 'left with them' ? dueBack(at, node) : undefined;
    if (due === undefined || due <= through) continue;
    const shown = node.examined.needs.some(
      ({ need, reading }) => reading.edition === entry.edition.id && need.use === 'show' && !need.optional,
    );
    if (shown) return { errand, due };
  }
  return undefined;
}

/** A new one got today would have lapsed as well by the day it is used: a ticket of two weeks, half a year ahead. */
function isShortLived(
  at: Standpoint,
  { edition }: Entry,
  { through, late }: { readonly through: Day; readonly late: Day | undefined },
): boolean {
  if (late === undefined || edition.issued === undefined) return false;
  return daysBetween(edition.issued, through) < daysBetween(at.day, late);
}

function pendingProblem(
  at: Standpoint,
  { paper, edition }: Entry,
  given: { readonly pending: Pending; readonly through: Day; readonly basis: Basis },
): Problem {
  const { errand, due } = given.pending;
  const office = officeTitle(at, errand.office);
  return {
    weight: 'good to know',
    sort: 'lapsing',
    kind: paper.kind,
    paper: paper.id,
    edition: edition.id,
    subject: paper.subject,
    office: errand.office,
    say: `${paperTitle(at, paper.kind, paper.subject)} is good through ${dayWords(given.through)} only.`,
    why: `"${errand.title}" lies with ${office} and may take until ${dayWords(due)}; it was shown there.`,
    basis: given.basis,
    mend: { do: 'say', say: `Ask ${office} whether it has to be good when they come; if so, get it anew in time.` },
    final: false,
  };
}

function lapseOf(at: Standpoint, entry: Entry): Lapse | undefined {
  const { kind, subject } = entry.paper;
  const rule = kindOf(at, kind);
  const { through, askBy } = validityAt(at, entry);
  if (rule === undefined || through === 'for good' || through === 'unknown' || through === 'ended') return undefined;
  const title = paperTitle(at, kind, subject);
  const pending = pendingUse(at, entry, through);
  if (pending !== undefined) {
    return {
      finding: findingOf(at, pendingProblem(at, entry, { pending, through, basis: rule.basis })),
      by: through,
      askBy,
    };
  }
  const uses = usesOf(at, entry);
  const [first] = uses;
  if (first === undefined) return undefined;
  const late = uses.find(({ from }) => from !== undefined && from > through);
  const user = late ?? first;
  const tooShort = isShortLived(at, entry, { through, late: late?.from });
  const asks = `${officeTitle(at, user.errand.office)} asks for it at "${user.errand.title}"`;
  const problem: Problem = {
    weight: late === undefined || tooShort ? 'good to know' : 'questioned',
    sort: 'lapsing',
    kind,
    paper: entry.paper.id,
    edition: entry.edition.id,
    subject,
    office: rule.from,
    say: `${title} is good through ${dayWords(through)} only.`,
    why: late?.from === undefined ? `${asks}.` : `${asks}, on ${dayWords(late.from)} at the earliest.`,
    basis: rule.basis,
    mend: tooShort ? { do: 'say', say: `Get it anew shortly before; got now, it lapses again.` } : mendOf(at, entry),
    final: false,
  };
  return { finding: findingOf(at, problem), by: through, askBy };
}

/**
 * Papers that lapse within the days given and that some errand still to come needs, heaviest first, then by their
 * last good day. What a duty tells already is told by the duty.
 */
export function readLapses(asked: Asked, within = lapsingDays): readonly Lapse[] {
  const at = indexLot(asked);
  const until = plusDays(at.day, within);
  const key = ({ kind, subject }: { kind: string; subject?: string | undefined }): string => `${kind} ${subject ?? ''}`;
  const watched = new Set(dutiesAt(at).flatMap((duty) => (duty.findings.length > 0 ? [key(duty)] : [])));
  const lapses = asked.lot.papers.flatMap((paper) => {
    if (paper.notApplicable !== undefined || watched.has(key(paper)) || !kindApplies(at, paper.kind)) return [];
    const entry = currentEntry(at, { kind: paper.kind, subject: paper.subject });
    if (entry === undefined || entry.paper.id !== paper.id || !entry.edition.readable) return [];
    const { good, through } = validityAt(at, entry);
    if (good !== true || !isDay(through) || through > until) return [];
    return lapseOf(at, entry) ?? [];
  });
  return [...lapses, ...ownLapses(at, until)].toSorted(
    (a, b) => byWeight(a.finding, b.finding) || (a.by < b.by ? -1 : a.by > b.by ? 1 : 0),
  );
}
