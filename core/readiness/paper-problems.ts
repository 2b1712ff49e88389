import { type Day, spanInWords } from '../vocabulary/days.ts';
import type { Validity } from '../vocabulary/finding.ts';
import type { KindId } from '../vocabulary/practice.ts';
import { plusSpan } from './calendar.ts';
import { currentEntry } from './current.ts';
import { isBehindUs, isSettled } from './errand-case.ts';
import { filledProblem } from './filled-form.ts';
import { verdictOf } from './inspection-result.ts';
import type { Entry } from './lot-index.ts';
import { type NeedCase, needProblem, officeTitle, paperTitle } from './need-case.ts';
import { formProblems } from './paper-form.ts';
import { stateOfEntry } from './paper-state.ts';
import type { Mend, Problem } from './problem.ts';
import { stalenessOf } from './stale.ts';
import { kindOf } from './standpoint.ts';
import { validityAt, whyOf } from './validity.ts';
import { factOf } from './whole-edition.ts';
import { dayWords, weekdayWords } from './words.ts';

export interface PaperCase {
  readonly given: NeedCase;
  readonly kind: KindId;
  readonly entry: Entry;
}

function extendOrGet({ given, kind }: PaperCase, validity: Validity): Mend {
  const by = kindOf(given.at, kind)?.extension?.by;
  if (validity.askBy !== undefined && validity.askBy >= given.at.day && by !== undefined) {
    return { do: 'get', kind: by, subject: given.subject };
  }
  return { do: 'get', kind, subject: given.subject };
}

function lapsed({ given, kind, entry }: PaperCase, validity: Validity): Problem {
  const title = paperTitle(given.at, kind, given.subject);
  const { through } = validity;
  const end =
    through === 'ended'
      ? `no longer counts: ${whyOf(validity)}`
      : `lapsed: last good day ${dayWords(asDate(through, given.at.day))} (${whyOf(validity)})`;
  const back = revival({ given, kind, entry }, through);
  return needProblem(
    given,
    { kind, entry, sort: 'lapsed' },
    {
      say: `${title} ${end}.${back}`,
      mend: { do: 'get', kind, subject: given.subject },
    },
  );
}

function asDate(through: Validity['through'], otherwise: Day): Day {
  return through === 'for good' || through === 'unknown' || through === 'ended' ? otherwise : through;
}

function revival({ given, kind }: PaperCase, through: Validity['through']): string {
  const rule = kindOf(given.at, kind)?.revival;
  if (rule === undefined || through === 'ended' || through === 'for good' || through === 'unknown') return '';
  const last = plusSpan(through, rule.within, given.at.rules.calendar);
  if (last < given.at.day) return '';
  return ` The office may bring it back until ${dayWords(last)}, for a fee.`;
}

function lapsing(paper: PaperCase, validity: Validity): Problem | undefined {
  const { given, kind, entry } = paper;
  const { through } = validity;
  if (through === 'for good' || through === 'unknown' || through === 'ended') return undefined;
  const { at, need } = given;
  const title = paperTitle(at, kind, given.subject);
  const wanted = need.goodFor === undefined ? undefined : plusSpan(at.day, need.goodFor, at.rules.calendar);
  const end = `lapses after ${weekdayWords(through)}${validity.safeThrough === undefined ? '' : ` (last open day ${weekdayWords(validity.safeThrough)})`}`;
  const mend = extendOrGet(paper, validity);
  if (wanted !== undefined && through < wanted) {
    const say = `${title} ${end}, and it has to be good for ${spanInWords(need.goodFor ?? {})} after the visit, until ${dayWords(wanted)}.`;
    return needProblem(given, { kind, entry, sort: 'lapsing' }, { say, mend });
  }
  if (stateOfEntry(at, entry) !== 'lapsing') return undefined;
  return {
    ...needProblem(given, { kind, entry, sort: 'lapsing' }, { say: `${title} ${end}.`, mend }),
    weight: 'good to know',
  };
}

function validityProblem(paper: PaperCase): Problem | undefined {
  const { given, kind, entry } = paper;
  const validity = validityAt(given.at, entry);
  if (validity.good === false) return lapsed(paper, validity);
  if (validity.good === true) return lapsing(paper, validity);
  const title = paperTitle(given.at, kind, given.subject);
  const why = validity.clocks.find((clock) => clock.through === 'unknown')?.why ?? 'a date is missing';
  const problem = needProblem(
    given,
    { kind, entry, sort: 'date unknown' },
    {
      say: `Nobody can say whether ${title} is still good: ${why}.`,
      mend: { do: 'say', say: 'Look at the paper and enter the date.' },
    },
  );
  return { ...problem, weight: 'ask first' };
}

function freshness({ given, kind, entry }: PaperCase): Problem | undefined {
  const { at, need } = given;
  if (need.fresh === undefined) return undefined;
  const title = paperTitle(at, kind, given.subject);
  const { issued } = entry.edition;
  const span = spanInWords(need.fresh);
  if (issued === undefined) {
    const say = `${title} may be no older than ${span}, and the day it was issued is not known.`;
    const mend: Mend = { do: 'say', say: 'Look at the paper and enter the day it was issued.' };
    return { ...needProblem(given, { kind, entry, sort: 'date unknown' }, { say, mend }), weight: 'ask first' };
  }
  if (plusSpan(issued, need.fresh, at.rules.calendar) >= at.day) return undefined;
  const say = `${title} is from ${dayWords(issued)}, older than the ${span} they take.`;
  return needProblem(
    given,
    { kind, entry, sort: 'too old' },
    { say, mend: { do: 'get', kind, subject: given.subject } },
  );
}

function staleness({ given, kind, entry }: PaperCase): Problem | undefined {
  const stale = stalenessOf(given.at, entry);
  if (stale.is === 'fresh') return undefined;
  const { at, subject } = given;
  const title = paperTitle(at, kind, subject);
  const newer = `${paperTitle(at, stale.by.paper.kind, undefined)}${revisionOf(stale.by)}`;
  if (stale.is === 'unsure') {
    const say = `It is not noted what ${title} was made from, and ${newer} of ${dayWords(stale.by.dated)} is newer.`;
    const mend: Mend = { do: 'say', say: 'Look at the paper, and note which edition it was made from.' };
    return { ...needProblem(given, { kind, entry, sort: 'stale' }, { say, mend }), weight: 'ask first' };
  }
  const say = `${title} was made from ${paperTitle(at, stale.from.paper.kind, undefined)}${revisionOf(stale.from)}, which ${newer} of ${dayWords(stale.by.dated)} replaced.`;
  const problem = needProblem(given, { kind, entry, sort: 'stale' }, { say, mend: { do: 'get', kind, subject } });
  return { ...problem, why: `It shows what no longer counts. ${problem.why}` };
}

function revisionOf(entry: Entry): string {
  return entry.edition.revision === undefined ? '' : ` revision ${entry.edition.revision}`;
}

function readability({ given, kind, entry }: PaperCase): Problem | undefined {
  if (entry.edition.readable) return undefined;
  return needProblem(
    given,
    { kind, entry, sort: 'unreadable' },
    {
      say: `${paperTitle(given.at, kind, given.subject)} can't be read.`,
      mend: { do: 'say', say: 'Scan it again from the original, or ask the office for another copy.' },
    },
  );
}

function tooEarly({ given, kind, entry }: PaperCase): Problem | undefined {
  const { effective } = entry.edition;
  if (effective === undefined || effective <= given.at.day) return undefined;
  const say = `${paperTitle(given.at, kind, given.subject)} isn't in force until ${dayWords(effective)}.`;
  return needProblem(
    given,
    { kind, entry, sort: 'too early' },
    { say, mend: { do: 'say', say: 'Go on or after that day.' } },
  );
}

/** A report in hand may tell that the work did not pass: then it opens nothing. */
function notPassed({ given, kind, entry }: PaperCase): Problem | undefined {
  const { at, subject } = given;
  const inspection = (at.rules.yielders.get(kind) ?? []).find((errand) => errand.inspection);
  if (inspection === undefined || verdictOf(at, inspection, entry) !== 'not passed') return undefined;
  // They came again and passed it: what the first report said is over.
  const passed =
    inspection.each === undefined ? isBehindUs(at, inspection) : isSettled(at, { errand: inspection, subject });
  if (passed) return undefined;
  const said = factOf(at, entry, 'result');
  const words = said?.sort === 'text' ? `says "${said.value}"` : 'says that it did not pass';
  const say = `${paperTitle(at, kind, subject)} of ${dayWords(entry.dated)} ${words}.`;
  const mend: Mend = { do: 'settle', errand: inspection.id, subject };
  return needProblem(given, { kind, entry, sort: 'refused by office' }, { say, mend });
}

/** A newer revision that this office hasn't approved yet is worth a word; the approved one still counts. */
function newerUnapproved({ given, kind, entry }: PaperCase): Problem | undefined {
  const { need, at, subject } = given;
  if (need.approvedBy === undefined) return undefined;
  const newest = currentEntry(at, { kind, subject });
  if (newest === undefined || newest.edition.id === entry.edition.id || newest.dated < entry.dated) return undefined;
  const office = officeTitle(at, need.approvedBy);
  const problem = needProblem(
    given,
    { kind, entry, sort: 'not approved' },
    {
      say: `${paperTitle(at, kind, subject)}${revisionOf(newest)} is newer, but ${office} hasn't approved it: ${revisionOf(entry).trim() || 'the approved one'} counts.`,
      mend: { do: 'approve', kind, office: need.approvedBy, subject },
    },
  );
  return { ...problem, weight: 'good to know' };
}

/** Everything against one edition for one need. */
export function paperProblems(given: NeedCase, kind: KindId, entry: Entry): readonly Problem[] {
  const paper: PaperCase = { given, kind, entry };
  const found = [readability, validityProblem, notPassed, tooEarly, freshness, staleness, newerUnapproved].map(
    (check) => check(paper),
  );
  const filled = filledProblem(paper);
  return [...found, filled].filter((problem) => problem !== undefined).concat(formProblems(paper));
}
