import type { Database } from 'better-sqlite3';
import type { KindId, Practice } from '../vocabulary/practice.ts';
import { storedJson } from './stored-json.ts';

/** What the practice in force calls a kind, and who issues it. */
export interface KindNames {
  readonly title: string;
  readonly office: string;
}

type NamesOf = (kind: KindId) => KindNames;

/** Per open database the names by the practice last read: a practice is long, and read at every act otherwise. */
const lastRead = new WeakMap<Database, { readonly sha: string; readonly names: NamesOf }>();

function namesIn(practice: Practice): NamesOf {
  const papers = new Map(Object.entries(practice.papers));
  const offices = new Map(Object.entries(practice.offices));
  return (kind) => {
    const rule = papers.get(kind);
    return { title: rule?.title ?? kind, office: offices.get(rule?.from ?? '')?.title ?? '' };
  };
}

/** The names by the practice in force; a kind it doesn't know goes by its id. */
export function kindNames(db: Database): NamesOf {
  const sha = db.prepare<[], string>('SELECT practice FROM lot').pluck().get() ?? '';
  const known = lastRead.get(db);
  if (known?.sha === sha) return known.names;
  const json = db.prepare<[string], string>('SELECT json FROM practice WHERE sha = ?').pluck().get(sha);
  const names = json === undefined ? (kind: KindId) => ({ title: kind, office: '' }) : namesIn(storedJson(json));
  lastRead.set(db, { sha, names });
  return names;
}
