import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { VisitId } from '../vocabulary/lot.ts';
import { newId } from './ids.ts';
import type { CommentId, NewVisit, VisitComment } from './keeping-model.ts';
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

export function addComment(ledger: Ledger, comment: Omit<VisitComment, 'id'>): CommentId {
  return ledger.act(`Comment ${comment.number}`, () => {
    ledger.mustHave('visit', comment.visit);
    const added = ledger.db
      .prepare('INSERT INTO comment (visit, number, text, answer, answered) VALUES (?, ?, ?, ?, ?)')
      .run(comment.visit, comment.number, comment.text, comment.answer ?? null, comment.answered ?? null);
    return Number(added.lastInsertRowid);
  });
}

export function answerComment(ledger: Ledger, comment: CommentId, answer: { text: string; day: Day }): void {
  ledger.act('Comment answered', () => {
    const done = ledger.db
      .prepare('UPDATE comment SET answer = ?, answered = ? WHERE seq = ?')
      .run(answer.text, answer.day, comment);
    if (done.changes === 0)
      throw new LotfileError('not found', 'There is no such comment.', { about: String(comment) });
  });
}

interface CommentRow {
  readonly seq: number;
  readonly visit: string;
  readonly number: string;
  readonly text: string;
  readonly answer: string | null;
  readonly answered: Day | null;
}

export function commentsOf(ledger: Ledger, visit: VisitId | undefined): readonly VisitComment[] {
  const rows = ledger.db
    .prepare<[{ visit: string | null }], CommentRow>(
      'SELECT * FROM comment WHERE :visit IS NULL OR visit = :visit ORDER BY seq',
    )
    .all({ visit: visit ?? null });
  return rows.map(({ seq, answer, answered, ...row }) => ({
    id: seq,
    ...row,
    answer: answer ?? undefined,
    answered: answered ?? undefined,
  }));
}
