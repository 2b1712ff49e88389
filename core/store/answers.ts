import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Answer } from '../vocabulary/facts.ts';
import type { Identity, LotEvent, SameAs, SubjectId } from '../vocabulary/lot.ts';
import type { QuestionId } from '../vocabulary/practice.ts';
import { newId } from './ids.ts';
import type { NewSubject } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';

function mustChange(changes: number, say: string, about: string): void {
  if (changes > 0) return;
  throw new LotfileError('not found', say, { about, next: 'Look at the lot again; it may have been undone.' });
}

export function setTitle(ledger: Ledger, title: string): void {
  ledger.act(`Lot renamed "${title}"`, () => ledger.db.prepare('UPDATE lot SET title = ?').run(title));
}

export function setTarget(ledger: Ledger, day: Day | undefined): void {
  const title = day === undefined ? 'Target day cleared' : `Target day set to ${day}`;
  ledger.act(title, () => ledger.db.prepare('UPDATE lot SET target = ?').run(day ?? null));
}

export function answer(ledger: Ledger, question: QuestionId, value: Answer): void {
  ledger.act(`Answered "${question}"`, () =>
    ledger.db
      .prepare(
        `INSERT INTO lot_fact (question, answer) VALUES (?, ?)
         ON CONFLICT (question) DO UPDATE SET answer = excluded.answer`,
      )
      .run(question, JSON.stringify(value)),
  );
}

export function noteEvent(ledger: Ledger, event: LotEvent): void {
  ledger.act(`Noted "${event.event}" on ${event.day}`, () =>
    ledger.db
      .prepare(
        `INSERT INTO event (event, day, note) VALUES (?, ?, ?)
         ON CONFLICT (event, day) DO UPDATE SET note = excluded.note`,
      )
      .run(event.event, event.day, event.note ?? null),
  );
}

export function removeEvent(ledger: Ledger, event: Pick<LotEvent, 'event' | 'day'>): void {
  ledger.act(`Took back "${event.event}" on ${event.day}`, () => {
    const done = ledger.db.prepare('DELETE FROM event WHERE event = ? AND day = ?').run(event.event, event.day);
    mustChange(done.changes, 'No such event was noted on that day.', event.event);
  });
}

export function addIdentity(ledger: Ledger, identity: Identity): void {
  ledger.act(`Noted the ${identity.sort} "${identity.text}"`, () =>
    ledger.db
      .prepare('INSERT INTO identity (sort, text, since, till) VALUES (?, ?, ?, ?)')
      .run(identity.sort, identity.text, identity.from ?? null, identity.to ?? null),
  );
}

export function endIdentity(ledger: Ledger, identity: Pick<Identity, 'sort' | 'text'>, to: Day): void {
  ledger.act(`The ${identity.sort} "${identity.text}" ended on ${to}`, () => {
    const done = ledger.db
      .prepare('UPDATE identity SET till = ? WHERE sort = ? AND text = ?')
      .run(to, identity.sort, identity.text);
    mustChange(done.changes, `No ${identity.sort} is written so.`, identity.text);
  });
}

/** The pair is kept in one order, so that confirming it the other way round changes nothing. */
export function confirmSame(ledger: Ledger, same: SameAs): void {
  const [a, b] = same.a <= same.b ? [same.a, same.b] : [same.b, same.a];
  ledger.act(`"${same.a}" and "${same.b}" are the same ${same.sort}`, () =>
    ledger.db.prepare('INSERT OR IGNORE INTO same_as (sort, a, b) VALUES (?, ?, ?)').run(same.sort, a, b),
  );
}

export function addSubject(ledger: Ledger, subject: NewSubject): SubjectId {
  const id = newId('s');
  ledger.act(`Added the ${subject.sort} "${subject.title}"`, () =>
    ledger.db
      .prepare('INSERT INTO subject (id, sort, title, firm, trade, since, till) VALUES (?, ?, ?, ?, ?, ?, ?)')
      .run(
        id,
        subject.sort,
        subject.title,
        subject.firm ?? null,
        subject.trade ?? null,
        subject.from ?? null,
        subject.to ?? null,
      ),
  );
  return id;
}

export function endSubject(ledger: Ledger, subject: SubjectId, to: Day): void {
  ledger.act(`Ended on ${to}`, () => {
    ledger.mustHave('subject', subject);
    ledger.db.prepare('UPDATE subject SET till = ? WHERE id = ?').run(to, subject);
  });
}

/** Corrects a firm or area wherever it stands; its papers and visits stay its own. */
export function changeSubject(ledger: Ledger, id: SubjectId, subject: NewSubject): void {
  ledger.act(`Corrected "${subject.title}"`, () => {
    ledger.mustHave('subject', id);
    ledger.db
      .prepare('UPDATE subject SET title = ?, firm = ?, trade = ?, since = ?, till = ? WHERE id = ?')
      .run(subject.title, subject.firm ?? null, subject.trade ?? null, subject.from ?? null, subject.to ?? null, id);
  });
}

/** Tables whose rows belong to a firm or area. */
const owning = ['paper', 'visit', 'cost_line', 'invoice', 'supplier_notice', 'draw'] as const;

/**
 * Takes a firm or area out again that was noted by mistake.
 * @throws LotfileError `wrong use` where papers, visits or money are noted for it.
 */
export function removeSubject(ledger: Ledger, id: SubjectId): void {
  ledger.act('Removed a firm or area', () => {
    ledger.mustHave('subject', id);
    const has = (table: string): boolean =>
      ledger.db.prepare(`SELECT 1 FROM ${table} WHERE subject = ? LIMIT 1`).get(id) !== undefined;
    if (owning.some(has)) {
      throw new LotfileError('wrong use', "Papers, visits or amounts are noted for it: it can't be removed.", {
        about: id,
        next: 'Correct its name or its days instead, or note its last day.',
      });
    }
    ledger.db.prepare('DELETE FROM subject WHERE id = ?').run(id);
  });
}
