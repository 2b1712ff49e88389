import { outcomesOf } from '../../vocabulary/coming-out.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { outcomeInWords } from '../../vocabulary/in-words.ts';
import type { LotView, Visit, VisitState } from '../../vocabulary/lot.ts';
import type { Errand, VisitOutcome } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { errandNamed, subjectNamed } from '../named.ts';
import { numbered } from './numbered.ts';
import { acted } from './record-card.ts';

function settles(state: VisitState, outcome: VisitOutcome | undefined): boolean {
  if (state !== 'settled') return false;
  return (
    outcome === undefined || outcome === 'pass' || outcome === 'pass with corrections' || outcome === 'letter in lieu'
  );
}

/** The booking that was meant; a visit that was made is corrected by taking it back, never written over. */
function plannedVisit(view: LotView, errand: Errand, said: string): Visit {
  const found = view.visits.find(({ id }) => id === said);
  if (found !== undefined && found.errand === errand.id && found.state === 'planned') return found;
  throw new LotfileError('not found', `No planned visit "${said}" for "${errand.title}" is noted.`, {
    about: said,
    next: 'Leave it out: then a visit of its own is noted.',
  });
}

/** A word the errand's practice leaves no room for is no outcome of it. */
function expectOutcome(errand: Errand, outcome: VisitOutcome | undefined): void {
  if (outcome === undefined || outcomesOf(errand).includes(outcome)) return;
  const words = outcomesOf(errand)
    .map((one) => `"${one}"`)
    .join(', ');
  throw new LotfileError(
    'wrong use',
    `"${errand.title}" can't be left with "${outcome}", as the rules on file stand.`,
    {
      about: errand.title,
      next: `Say one of ${words}; if the office has told you otherwise, note it in the local practice first.`,
    },
  );
}

/** Turned away is no word of a visit that ended otherwise. */
function expectBack(errand: Errand, state: VisitState, outcome: VisitOutcome | undefined): void {
  if (outcome !== 'turned away' || state === 'sent back') return;
  throw new LotfileError(
    'wrong use',
    `Who was turned away with "${errand.title}" left nothing there and settled nothing.`,
    {
      about: errand.title,
      next: 'Say the state "sent back" with it, and their comments.',
    },
  );
}

/** As much of what was said as the history has room for. */
function clipped(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length <= 80 ? line : `${line.slice(0, 79).trimEnd()}…`;
}

/** "Apply for the permit: sent back. Turned away. 1. Where is the well? 2. Sign it.": the line of the history. */
function titleOfVisit(
  said: { readonly title: string; readonly end: string; readonly note?: string | undefined },
  comments: readonly { readonly number: string; readonly text: string }[],
): string {
  const more = [
    ...(said.note === undefined ? [] : [clipped(said.note)]),
    ...comments.slice(0, 3).map(({ number, text }) => `${number}. ${clipped(text)}`),
    ...(comments.length > 3 ? [`and ${comments.length - 3} more`] : []),
  ];
  return `${said.title}: ${said.end}${more.length === 0 ? '' : ` (${more.join('; ')})`}`;
}

/** One going to an office: what came of it, with their numbered comments where they sent it back. */
export const visit = onLot(
  requests.visit,
  ({ errand: asked, subject, visit: known, day, state, outcome, note, comments, due }, at) => {
    const errand = errandNamed(at.lot.practice(), asked);
    expectOutcome(errand, outcome);
    expectBack(errand, state, outcome);
    const view = at.lot.view();
    const subjectId = subject === undefined ? undefined : subjectNamed(view, subject).id;
    const planned = known === undefined ? undefined : plannedVisit(view, errand, known);
    let id = '';
    const end = outcome === undefined ? state : outcomeInWords(outcome);
    const said = numbered(comments);
    const { act } = acted(at, titleOfVisit({ title: errand.title, end, note }, said), () => {
      id = at.lot.recordVisit({
        id: planned?.id,
        errand: errand.id,
        subject: subjectId ?? planned?.subject,
        day: day ?? at.day,
        state,
        outcome,
        // What was agreed for the day ("before noon") is no word on what came of it.
        note: note ?? (state === 'planned' ? planned?.note : undefined),
        packet: planned?.packet,
      });
      for (const one of said) at.lot.addComment({ visit: id, ...one, due });
      // A settled visit is itself an event where the practice says so; a cancelled or failed one is none.
      const happened = new Set(view.events.map(({ event }) => event));
      const caused = settles(state, outcome) ? errand.causes.filter((event) => !happened.has(event)) : [];
      for (const event of caused) at.lot.noteEvent({ event, day: day ?? at.day });
    });
    return { act, visit: id };
  },
);
