import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { VisitId } from '../vocabulary/lot.ts';
import { newId } from './ids.ts';
import type { CommentAnswer, CommentChange, CommentId, NewVisit, VisitComment } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';

/** Records a new visit, or what became of one. */
export function recordVisit(ledger: Ledger, visit: NewVisit): VisitId {
  return ledger.act(`Visit for "${visit.errand}" on ${visit.day}: ${visit.outcome ?? visit.state}`, () => {
    if (visit.id !== undefined) ledger.mustHave('visit', visit.id);
    if (visit.subject !== undefined) ledger.mustHave('subject', visit.subject);
    if (visit.packet !== undefined) ledger.mustHave('packet', visit.packet);
    const id = visit.id ?? newId('v');
    ledger.db
      .prepare(
        `INSERT INTO visit (id, errand, subject, day, state, outcome, note, packet) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
         ON CONFLICT (id) DO UPDATE SET errand = excluded.errand, subject = excluded.subject, day = excluded.day,
           state = excluded.state, outcome = excluded.outcome, note = excluded.note, packet = excluded.packet`,
      )
      .run(
        id,
        visit.errand,
        visit.subject ?? null,
        visit.day,
        visit.state,
        visit.outcome ?? null,
        visit.note ?? null,
        visit.packet ?? null,
      );
    return id;
  });
}

function noSuchComment(comment: CommentId): LotfileError {
  return new LotfileError('not found', 'There is no such comment.', { about: String(comment) });
}

interface More {
  readonly due: Day | null;
  readonly evidence: string | null;
}

function moreOf(ledger: Ledger, comment: CommentId): More {
  const row = ledger.db
    .prepare<[number], More>('SELECT due, evidence FROM comment_more WHERE comment = ?')
    .get(comment);
  return row ?? { due: null, evidence: null };
}

/** Until when, and the paper that shows it; the row goes where neither is known. */
function writeMore(ledger: Ledger, comment: CommentId, more: More): void {
  if (more.evidence !== null) ledger.mustHave('edition', more.evidence);
  if (more.due === null && more.evidence === null) {
    ledger.db.prepare('DELETE FROM comment_more WHERE comment = ?').run(comment);
    return;
  }
  ledger.db
    .prepare(
      `INSERT INTO comment_more (comment, due, evidence) VALUES (?, ?, ?)
       ON CONFLICT (comment) DO UPDATE SET due = excluded.due, evidence = excluded.evidence`,
    )
    .run(comment, more.due, more.evidence);
}

export function addComment(ledger: Ledger, comment: Omit<VisitComment, 'id'>): CommentId {
  return ledger.act(`Comment ${comment.number}`, () => {
    ledger.mustHave('visit', comment.visit);
    const added = ledger.db
      .prepare('INSERT INTO comment (visit, number, text, answer, answered) VALUES (?, ?, ?, ?, ?)')
      .run(comment.visit, comment.number, comment.text, comment.answer ?? null, comment.answered ?? null);
    const id = Number(added.lastInsertRowid);
    writeMore(ledger, id, { due: comment.due ?? null, evidence: comment.evidence ?? null });
    return id;
  });
}

export function answerComment(ledger: Ledger, comment: CommentId, answer: CommentAnswer): void {
  ledger.act('Comment answered', () => {
    const done = ledger.db
      .prepare('UPDATE comment SET answer = ?, answered = ? WHERE seq = ?')
      .run(answer.text, answer.day, comment);
    if (done.changes === 0) throw noSuchComment(comment);
    if (answer.evidence === undefined) return;
    writeMore(ledger, comment, { ...moreOf(ledger, comment), evidence: answer.evidence });
  });
}

export function changeComment(ledger: Ledger, comment: CommentId, change: CommentChange): void {
  ledger.act('Comment corrected', () => {
    const done = ledger.db
      .prepare('UPDATE comment SET number = coalesce(?, number), text = coalesce(?, text) WHERE seq = ?')
      .run(change.number ?? null, change.text ?? null, comment);
    if (done.changes === 0) throw noSuchComment(comment);
    const known = moreOf(ledger, comment);
    const kept = <T>(said: T | null | undefined, before: T | null): T | null => (said === undefined ? before : said);
    writeMore(ledger, comment, {
      due: kept(change.due, known.due),
      evidence: kept(change.evidence, known.evidence),
    });
  });
}

export function removeComment(ledger: Ledger, comment: CommentId): void {
  ledger.act('Comment taken away', () => {
    ledger.db.prepare('DELETE FROM comment_more WHERE comment = ?').run(comment);
    if (ledger.db.prepare('DELETE FROM comment WHERE seq = ?').run(comment).changes === 0) throw noSuchComment(comment);
  });
}

interface CommentRow {
  readonly seq: number;
  readonly visit: string;
  readonly number: string;
  readonly text: string;
  readonly answer: string | null;
  readonly answered: Day | null;
  readonly due: Day | null;
  readonly evidence: string | null;
}

export function commentsOf(ledger: Ledger, visit: VisitId | undefined): readonly VisitComment[] {
  const rows = ledger.db
    .prepare<[{ visit: string | null }], CommentRow>(
      `SELECT comment.*, due, evidence FROM comment LEFT JOIN comment_more ON comment_more.comment = comment.seq
       WHERE :visit IS NULL OR visit = :visit ORDER BY comment.seq`,
    )
    .all({ visit: visit ?? null });
  return rows.map(({ seq, answer, answered, due, evidence, ...row }) => ({
    id: seq,
    ...row,
    answer: answer ?? undefined,
    answered: answered ?? undefined,
    due: due ?? undefined,
    evidence: evidence ?? undefined,
  }));
}
