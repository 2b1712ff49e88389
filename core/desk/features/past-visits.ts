import type { Asked } from '../../readiness/index.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import { outcomeInWords } from '../../vocabulary/in-words.ts';
import type { Visit } from '../../vocabulary/lot.ts';
import type { AtLot } from '../context.ts';
import type { FoundRow } from '../contract/answers.ts';
import type { PastVisitRow, ToldRow } from '../contract/shown-rows.ts';
import { errandTitle, officeTitle, subjectTitle, titleFor } from './asked.ts';
import { commentsOn } from './with-them.ts';
import { visitsOf } from './written/recorded.ts';

/** What came of every going so far, and what offices said: shown on the errand and found by its words. */

/** "sent back", "not passed": how a visit ended. */
function endInWords({ state, outcome }: Pick<Visit, 'state' | 'outcome'>): string {
  return outcome === undefined ? state : outcomeInWords(outcome);
}

/** The visits of an errand made by the day, newest first, each with its note, its comments and what answered them. */
export function pastVisits(
  at: AtLot,
  asked: Asked,
  of: { readonly errand: string; readonly subject?: string | undefined },
): readonly PastVisitRow[] {
  return visitsOf(asked, of.errand, of.subject)
    .toReversed()
    .map((visit) => ({
      visit: visit.id,
      day: visit.day,
      words: endInWords(visit),
      note: visit.note,
      comments: commentsOn(at.lot, [visit]),
    }));
}

/** What an office said otherwise than the rules on file, newest first. */
export function toldBy(at: AtLot, office: string): readonly ToldRow[] {
  return at.lot
    .officeWords()
    .filter((word) => word.office === office)
    .toReversed()
    .map(({ id, who, day, said }) => ({ word: String(id), who, day, said }));
}

/** A comment as one line of text: "1. Where is the well? Answered: Sheet C1 shows it." */
function saidLine({ number, text, answer }: { number: string; text: string; answer?: string | undefined }): string {
  return `${number}. ${text}${answer === undefined ? '' : ` Answered: ${answer}`}`;
}

type Marks = (text: string) => FoundRow['marks'] | undefined;

/**
 * Visits whose note, comments or answers, and office words whose saying, hold what is looked for.
 * @param marksIn where it stands in a text; undefined where it doesn't
 */
export function foundInVisits(at: AtLot, asked: Asked, marksIn: Marks): readonly FoundRow[] {
  const { practice, lot: view } = asked;
  const said = Map.groupBy(at.lot.comments(), ({ visit }) => visit);
  const hits = (lines: readonly string[], row: Omit<FoundRow, 'snippet' | 'marks'>): readonly FoundRow[] =>
    lines.flatMap((snippet) => {
      const marks = marksIn(snippet);
      return marks === undefined ? [] : [{ ...row, snippet, marks }];
    });
  const visits = view.visits.toReversed().flatMap((visit) => {
    const { id, errand, subject, note, day } = visit;
    const lines = [...(note === undefined ? [] : [note]), ...(said.get(id) ?? []).map(saidLine)];
    const when = `${visit.state === 'planned' ? 'planned for' : `${endInWords(visit)} on`} ${dayInWords(day)}`;
    const title = titleFor(errandTitle(practice, errand), subjectTitle(view, subject));
    return hits(lines, { sort: 'errand', errand, subject, title, why: 'visit', when });
  });
  const words = at.lot.officeWords().flatMap(({ office, who, day, said: what }) => {
    const title = officeTitle(practice, office);
    return hits([`${what} (${who})`], { sort: 'office', office, title, why: 'word', when: dayInWords(day) });
  });
  return [...visits, ...words];
}
