import type { Finding, Remedy } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { currentEntry } from './current.ts';
import { caseKey, casesOf, errandApplies, latestVisit } from './errand-case.ts';
import { officeTitle, paperTitle } from './need-case.ts';
import type { Mend, Problem } from './problem.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
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

/** The titles of what an errand itself still needs, the first few. */
function stillNeeds(at: Standpoint, { examined }: Node): string {
  const papers = examined.needs
    .filter((draft) => draft.unmet && draft.reading.applies === true)
    .map((draft) => paperTitle(at, draft.reading.kind, draft.reading.subject));
  const others = examined.ahead.flatMap((problem) =>
    problem.mend.do === 'settle'
      ? [`"${at.practice.errands[problem.mend.errand]?.title ?? problem.mend.errand}" settled`]
      : [],
  );
  const all = [...new Set([...papers, ...others])];
  if (all.length === 0) return '';
  const shown = all.slice(0, 3).join(', ');
  return ` For that you still need ${shown}${all.length > 3 ? ` and ${all.length - 3} more` : ''}.`;
}

/** @param had whether a paper of the kind is in hand already: then the errand is made again, not looked for. */
function goOn(at: Standpoint, node: Node, had = false): Remedy {
  const { errand } = node.one;
  const office = officeTitle(at, errand.office);
  const dated = datedGraphAt(at).dates.get(node.key);
  const about = { errand: errand.id, office: errand.office, earliest: dated?.earliest };
  if (node.examined.state === 'left with them') {
    const day = latestVisit(at, node.one)?.day;
    const since = day === undefined ? '' : ` on ${dayWords(day)}`;
    const back = dated === undefined ? '' : `, expected by ${weekdayWords(dated.done)}`;
    return { ...about, earliest: dated?.done, say: `It was left with ${office}${since}${back}: ask after it.` };
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
        ? `${had ? 'Draw up' : 'Write or find'} ${paperTitle(at, kind, subject)}${had ? ' anew' : ''}, and keep it.`
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

/** A problem with its way out. */
export function findingOf(at: Standpoint, problem: Problem): Finding {
  const { mend, ...rest } = problem;
  return { ...rest, remedy: remedyOf(at, mend) };
}
