import { daysBetween } from '../vocabulary/days.ts';
import type { Finding, FindingSort, Remedy, WayOut } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { currentEntry } from './current.ts';
import { caseKey, casesOf, errandApplies, latestVisit } from './errand-case.ts';
import { officeTitle, paperTitle } from './need-case.ts';
import type { NeedDraft } from './needs.ts';
import type { Change, Mend, Problem } from './problem.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { dueBack } from './way/dating.ts';
import type { Node } from './way/graph.ts';
import { datedGraphAt } from './way/read-way.ts';
import { dayWords, weekdayWords } from './words.ts';

interface Choice {
  readonly node: Node;
  readonly done: string;
}

/** Of the errands that would do, the one that is back first; a settled one where none is open. */
function bestOf(at: Standpoint, errands: readonly Errand[], subject: SubjectId | undefined): Choice | undefined {
  const { graph, dates } = datedGraphAt(at);
  let best: Choice | undefined;
  for (const errand of errands) {
    const own = subject !== undefined && at.index.subjects.get(subject)?.sort === errand.each;
    for (const one of casesOf(at, errand)) {
      const node = graph.byKey.get(caseKey(one));
      if (node === undefined || node.examined.state === "doesn't apply" || (own && one.subject !== subject)) continue;
      const done = dates.get(node.key)?.done ?? '9999-12-31';
      if (best === undefined || done < best.done) best = { node, done };
    }
  }
  return best;
}

/** What has to become of a paper that is in hand and won't do: "approved by the permit desk", "renewed". */
function becoming(at: Standpoint, { need, problems }: NeedDraft): string {
  const sorts = new Set<FindingSort>(problems.map(({ sort }) => sort));
  if (sorts.has('not approved') && need.approvedBy !== undefined)
    return ` approved by ${officeTitle(at, need.approvedBy)}`;
  if (sorts.has('stale')) return ' made anew';
  if (sorts.has('lapsed') || sorts.has('lapsing')) return ' renewed';
  if (sorts.has('too old')) return ' of a later day';
  if (sorts.has('unreadable')) return ' in a copy that can be read';
  if (sorts.has('refused by office') || sorts.has('replaced')) return ' in an edition that counts';
  return '';
}

function firstOf(at: Standpoint, problem: Problem): readonly string[] {
  if (problem.mend.do === 'settle')
    return [`"${at.practice.errands[problem.mend.errand]?.title ?? problem.mend.errand}" settled`];
  return problem.mend.do === 'say' && problem.mend.first !== undefined ? [problem.mend.first] : [];
}

/** What an errand itself still needs, the first few; of a paper in hand, what has to become of it. */
function stillNeeds(at: Standpoint, { examined }: Node): string {
  const papers = examined.needs
    .filter((draft) => draft.unmet && draft.reading.applies === true)
    .map((draft) => `${paperTitle(at, draft.reading.kind, draft.reading.subject)}${becoming(at, draft)}`);
  const others = examined.ahead.flatMap((problem) => firstOf(at, problem));
  const all = [...new Set([...papers, ...others])];
  if (all.length === 0) return '';
  const shown = all.slice(0, 3).join(', ');
  return ` For that you still need ${shown}${all.length > 3 ? ` and ${all.length - 3} more` : ''}.`;
}

/** Since when it lies with them, when it was to be back, and how late they are. */
function leftThere(at: Standpoint, node: Node, office: string): string {
  const day = latestVisit(at, node.one)?.day;
  const since = day === undefined ? '' : ` on ${dayWords(day)}`;
  const due = dueBack(at, node);
  if (due === undefined) return `It was left with ${office}${since}: ask after it.`;
  const late = daysBetween(due, at.day);
  if (late <= 0) return `It was left with ${office}${since}, expected by ${weekdayWords(due)}: ask after it.`;
  const { phone } = at.practice.offices[node.one.errand.office] ?? {};
  const days = late === 1 ? '1 day' : `${late} days`;
  return `It was left with ${office}${since} and was to be back by ${weekdayWords(due)}, ${days} late: ask after it${phone === undefined ? '' : `, ${phone}`}.`;
}

/** @param had whether a paper of the kind is in hand already: then the errand is made again, not looked for. */
function goOn(at: Standpoint, node: Node, had = false): Remedy {
  const { errand } = node.one;
  const office = officeTitle(at, errand.office);
  const dated = datedGraphAt(at).dates.get(node.key);
  const about = { errand: errand.id, office: errand.office, earliest: dated?.earliest };
  if (node.examined.state === 'left with them') {
    return { ...about, earliest: dated?.done, withThem: true, say: leftThere(at, node, office) };
  }
  if (dated === undefined) {
    const again = `"${errand.title}" (${office}) has to be made again: ask them what they want for it.`;
    const lost = `"${errand.title}" (${office}) is settled: put the paper on the table, or ask them for a copy.`;
    return { ...about, say: had ? again : lost };
  }
  const back = dated.done === dated.earliest ? '' : `, back by about ${dayWords(dated.done)}`;
  return {
    ...about,
    say: `Go on "${errand.title}" (${office}); earliest ${weekdayWords(dated.earliest)}${back}.${stillNeeds(at, node)}`,
  };
}

function getKind(at: Standpoint, kind: KindId, subject: SubjectId | undefined): Remedy {
  const best = bestOf(at, at.rules.yielders.get(kind) ?? [], subject);
  const had = currentEntry(at, { kind, subject }) !== undefined;
  if (best !== undefined) return goOn(at, best.node, had);
  const office = kindOf(at, kind)?.from;
  const from = office === undefined ? 'whoever issues it' : officeTitle(at, office);
  return {
    office,
    say:
      office === 'owner'
        ? had
          ? `Draw up ${paperTitle(at, kind, subject)} anew, and keep it.`
          : `${paperTitle(at, kind, subject)} is yours to make: keep it once you have it.`
        : `Get ${paperTitle(at, kind, subject)} from ${from}, and keep it.`,
  };
}

function approval(at: Standpoint, mend: Extract<Mend, { do: 'approve' }>): Remedy {
  const errands = (at.rules.wanters.get(mend.kind) ?? []).filter(
    (errand) =>
      errand.office === mend.office &&
      errand.needs.some((need) => need.kinds.includes(mend.kind) && need.approvedBy === undefined),
  );
  const best = bestOf(
    at,
    errands.filter((errand) => errandApplies(at, errand) !== false),
    mend.subject,
  );
  const office = officeTitle(at, mend.office);
  if (best === undefined || best.done === '9999-12-31') {
    return { office: mend.office, say: `If ${office} has approved it, note that on the edition; otherwise ask them.` };
  }
  return goOn(at, best.node);
}

export function remedyOf(at: Standpoint, mend: Mend): Remedy {
  switch (mend.do) {
    case 'say':
      return { say: mend.say, errand: mend.errand };
    case 'choose':
      return { say: chosenInWords(at, mend) };
    case 'get':
      return getKind(at, mend.kind, mend.subject);
    case 'approve':
      return approval(at, mend);
    case 'settle': {
      const errand = Object.hasOwn(at.practice.errands, mend.errand) ? at.practice.errands[mend.errand] : undefined;
      const best = errand === undefined ? undefined : bestOf(at, [errand], mend.subject);
      return best === undefined ? { say: 'Settle it first.', errand: mend.errand } : goOn(at, best.node);
    }
  }
}

type Choose = Extract<Mend, { do: 'choose' }>;

/** "House plans" goes back to 3 (House designer): the paper, what it becomes, and who has to change it. */
function wayOut(at: Standpoint, { kind, subject, paper, edition, becomes }: Change): WayOut {
  const id = kindOf(at, kind)?.from;
  const office = id === undefined || !Object.hasOwn(at.practice.offices, id) ? undefined : at.practice.offices[id];
  const who = office === undefined ? '' : ` (${office.sort === 'owner' ? 'you change it' : office.title})`;
  const node = bestOf(at, at.rules.yielders.get(kind) ?? [], subject)?.node;
  const earliest = node === undefined ? undefined : datedGraphAt(at).dates.get(node.key)?.earliest;
  const errand = node?.one.errand.id;
  const say = `${paperTitle(at, kind, subject)} ${becomes}${who}`;
  return { say, title: paperTitle(at, kind, subject), office: office?.id, errand, earliest, kind, paper, edition };
}

/** Nobody drives to an office over what was only entered wrong: the papers at hand are looked at first. */
function chosenInWords(at: Standpoint, { otherwise, among }: Choose): string {
  const ways = among.map((change) => wayOut(at, change));
  const says = ways.map(({ say }) => say);
  if (!ways.some(({ edition }) => edition !== undefined)) {
    return says.length < 2 ? `${otherwise} That is: ${says.join('')}.` : `Either ${says.join(', or ')}.`;
  }
  return says.length < 2
    ? `Look first whether it is entered as it stands on the paper. If it is: ${otherwise} That is: ${says.join('')}.`
    : `Look first whether both are entered as they stand on the papers. If they are: either ${says.join(', or ')}.`;
}

/** A problem with its way out, or its ways. */
export function findingOf(at: Standpoint, problem: Problem): Finding {
  const { mend, ...rest } = problem;
  const remedy = remedyOf(at, mend);
  return mend.do === 'choose'
    ? { ...rest, remedy, waysOut: mend.among.map((change) => wayOut(at, change)) }
    : { ...rest, remedy };
}
