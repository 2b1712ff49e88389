import { LotfileError } from '../vocabulary/errors.ts';
import type { FactSort, FactValue } from '../vocabulary/facts.ts';
import type { EditionId, EditionLink, Standing } from '../vocabulary/lot.ts';
import { readFact } from './fact-value.ts';
import type { EditionCorrection, KeptFact, OriginalCopy } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { storedJson } from './stored-json.ts';

/** Units as facts are kept (vocabulary/facts.ts), written beside each value for readers without this program. */
const units: Partial<Readonly<Record<FactSort, string>>> = {
  money: 'US cents',
  length: 'ft',
  area: 'sq ft',
  volume: 'cu ft',
  flow: 'cfm',
  percent: '%',
};

function unitOf(value: FactValue): string | null {
  return value.sort === 'elevation' ? `ft ${value.value.datum}` : (units[value.sort] ?? null);
}

interface FactRow {
  readonly fact: string;
  readonly sort: FactSort;
  readonly value: string;
  readonly page: number | null;
  readonly place: string | null;
}

/** Facts named are written over, facts not named are removed; those that stay the same leave no trace. */
export function writeFacts(ledger: Ledger, edition: EditionId, facts: readonly KeptFact[]): void {
  const wanted = new Set(facts.map((fact) => fact.fact));
  const had = ledger.db.prepare<[string], string>('SELECT fact FROM fact WHERE edition = ?').pluck().all(edition);
  const remove = ledger.db.prepare('DELETE FROM fact WHERE edition = ? AND fact = ?');
  for (const fact of had) if (!wanted.has(fact)) remove.run(edition, fact);
  const put = ledger.db.prepare(
    `INSERT INTO fact (edition, fact, sort, value, unit, page, place) VALUES (?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT (edition, fact) DO UPDATE SET sort = excluded.sort, value = excluded.value, unit = excluded.unit,
       page = excluded.page, place = excluded.place`,
  );
  for (const { fact, value, page, place } of facts) {
    const text = JSON.stringify(value.value);
    put.run(
      edition,
      fact,
      value.sort,
      text,
      unitOf(value),
      page ?? null,
      place === undefined ? null : JSON.stringify(place),
    );
  }
}

export function factsOf(ledger: Ledger, edition: EditionId): readonly KeptFact[] {
  ledger.mustHave('edition', edition);
  const rows = ledger.db.prepare<[string], FactRow>('SELECT * FROM fact WHERE edition = ? ORDER BY seq').all(edition);
  return rows.map((row) => ({
    fact: row.fact,
    value: readFact(row),
    page: row.page ?? undefined,
    place: row.place === null ? undefined : storedJson(row.place),
  }));
}

export function writeMarks(ledger: Ledger, edition: EditionId, marks: readonly string[]): void {
  const had = ledger.db.prepare<[string], string>('SELECT mark FROM mark WHERE edition = ?').pluck().all(edition);
  const remove = ledger.db.prepare('DELETE FROM mark WHERE edition = ? AND mark = ?');
  for (const mark of had) if (!marks.includes(mark)) remove.run(edition, mark);
  const put = ledger.db.prepare('INSERT OR IGNORE INTO mark (edition, mark) VALUES (?, ?)');
  for (const mark of marks) put.run(edition, mark);
}

export function writeLinks(ledger: Ledger, edition: EditionId, links: readonly EditionLink[]): void {
  const put = ledger.db.prepare('INSERT OR IGNORE INTO edition_link (edition, word, target) VALUES (?, ?, ?)');
  for (const link of links) {
    ledger.mustHave('edition', link.to);
    if (link.to === edition) throw new LotfileError('wrong use', `A paper can't be linked to itself (${link.word}).`);
    put.run(edition, link.word, link.to);
  }
}

export function writeCopies(ledger: Ledger, edition: EditionId, copies: readonly OriginalCopy[]): void {
  ledger.db.prepare('DELETE FROM original_copy WHERE edition = ?').run(edition);
  const put = ledger.db.prepare('INSERT INTO original_copy (edition, place, count, note) VALUES (?, ?, ?, ?)');
  for (const copy of copies) put.run(edition, copy.place, copy.count, copy.note ?? null);
}

export function copiesOf(ledger: Ledger, edition: EditionId): readonly OriginalCopy[] {
  ledger.mustHave('edition', edition);
  const rows = ledger.db
    .prepare<[string], { place: string; count: number; note: string | null }>(
      'SELECT place, count, note FROM original_copy WHERE edition = ? ORDER BY seq',
    )
    .all(edition);
  return rows.map((row) => ({ place: row.place, count: row.count, note: row.note ?? undefined }));
}

/** Runs a change of one edition as an act named after its paper. */
export function changeEdition(ledger: Ledger, edition: EditionId, change: { what: string; write: () => void }): void {
  ledger.mustHave('edition', edition);
  const title = ledger.db
    .prepare<[string], string>('SELECT paper.title FROM edition JOIN paper ON paper.id = paper WHERE edition.id = ?')
    .pluck()
    .get(edition);
  ledger.act(`${change.what} of "${title ?? ''}"`, change.write);
}

export function recordStanding(ledger: Ledger, edition: EditionId, standing: Standing): void {
  changeEdition(ledger, edition, {
    what: `${standing.office}: ${standing.word},`,
    write: () => {
      ledger.db
        .prepare('INSERT INTO standing (edition, office, word, day, note) VALUES (?, ?, ?, ?, ?)')
        .run(edition, standing.office, standing.word, standing.day, standing.note ?? null);
    },
  });
}

const columns: Readonly<Record<keyof EditionCorrection, string>> = {
  received: 'received',
  issued: 'issued',
  effective: 'effective',
  goodThrough: 'good_through',
  number: 'number',
  issuer: 'issuer',
  revision: 'revision',
  physicalOnly: 'physical_only',
  readable: 'readable',
};

function isCorrectable(key: string): key is keyof EditionCorrection {
  return Object.hasOwn(columns, key);
}

export function correctEdition(ledger: Ledger, edition: EditionId, correction: EditionCorrection): void {
  const write = () => {
    for (const [key, value] of Object.entries(correction)) {
      if (!isCorrectable(key) || value === undefined) continue;
      const kept = typeof value === 'boolean' ? Number(value) : value;
      ledger.db.prepare(`UPDATE edition SET ${columns[key]} = ? WHERE id = ?`).run(kept, edition);
    }
  };
  changeEdition(ledger, edition, { what: 'Correction', write });
}
