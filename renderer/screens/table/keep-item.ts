import type { KeepAnswer } from '../../../core/desk/contract/answers.ts';
import type { RequestArgument } from '../../../core/desk/contract/requests.ts';
import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { fetchAnswer, perform } from '../../state/doing.ts';
import { wrongWith } from '../papers/fact-said.ts';
import { nextPart, pointAtFirst } from './parting.ts';
import { choose, type Draft, dropDraft, onPaperOnly, putDraft, useTable } from './table-state.ts';

type ToKeep = RequestArgument<'keep'>['papers'][number];

/** Marks some errand asks for on this kind. */
export function marksAsked(practice: Practice, kind: string | undefined): readonly string[] {
  if (kind === undefined) return [];
  const needs = Object.values(practice.errands).flatMap((errand) => errand.needs);
  return [...new Set(needs.filter(({ kinds }) => kinds.includes(kind)).flatMap(({ marks }) => marks))];
}

/** What still has to be said before it can be kept; undefined where nothing has. */
export function lacks(draft: Draft, practice: Practice, items: readonly TableItem[]): string | undefined {
  const { kind, subject, title, files, issued, effective, goodThrough } = draft;
  if (kind === undefined) return 'Say what it is, then it can be kept.';
  if (kind === 'other' && title.trim() === '') return 'Give it a title.';
  const rule = practice.papers[kind];
  if (rule?.each !== undefined && subject === undefined) return 'Say whose it is.';
  const wrong = Object.values(rule?.facts ?? {}).find(
    ({ id, sort, title: named }) => wrongWith(sort, draft.facts[id] ?? '', named) !== undefined,
  );
  if (wrong !== undefined) return `Look at “${wrong.title}” again.`;
  const first = issued ?? effective;
  if (first !== undefined && goodThrough !== undefined && first > goodThrough) {
    return 'Look at the dates again: it would lapse before it was issued.';
  }
  if (items.some(({ item, arriving }) => arriving && files.includes(item)))
    return 'It is still arriving; wait a moment.';
  return undefined;
}

/** The kind's own fact for the revision, where it has one: then that is asked for, and stands for both. */
function revisionFact({ kind }: Draft, practice: Practice): string | undefined {
  const rules = Object.values((kind === undefined ? undefined : practice.papers[kind])?.facts ?? {});
  return rules.find(({ sort }) => sort === 'revision')?.id;
}

export function asksRevision(draft: Draft, practice: Practice): boolean {
  return revisionFact(draft, practice) !== undefined;
}

const turnSaid = { 0: '0', 90: '90', 180: '180', 270: '270' } as const;

function said(text: string): string | undefined {
  return text.trim() === '' ? undefined : text.trim();
}

/** The draft as the desk takes it; facts of another kind chosen before are left out. */
export function toKeep(draft: Draft, practice: Practice, items: readonly TableItem[]): ToKeep {
  const { files, kind = 'other', subject, issued, effective, goodThrough, marks, links } = draft;
  const rule = practice.papers[kind];
  const facts = Object.entries(draft.facts).filter(
    ([fact, words]) => words.trim() !== '' && Object.hasOwn(rule?.facts ?? {}, fact),
  );
  const tickets = files.flatMap((file) => items.filter(({ item }) => item === file).map(({ ticket }) => ticket));
  return {
    files: tickets,
    pages: files.map((file) => draft.picks[file] ?? ''),
    turn: files.map((file) => turnSaid[draft.turns[file] ?? 0]),
    leaveRest: draft.leaveRest,
    kind,
    title: kind === 'other' ? said(draft.title) : undefined,
    subject: rule?.each === undefined ? undefined : subject,
    issued,
    effective,
    goodThrough,
    number: said(draft.number),
    issuer: said(draft.issuer),
    revision: said(draft.facts[revisionFact(draft, practice) ?? ''] ?? draft.revision),
    facts: Object.fromEntries(facts),
    marks: [...marks],
    links: [...links],
    physicalOnly: files.length === 0,
    password: draft.password === '' ? undefined : draft.password,
  };
}

/** Keeping answers with papers, not with an act; the history's newest is the one to take back. */
async function noteKept({ kept }: KeepAnswer): Promise<void> {
  const history = await fetchAnswer('history', { limit: 1 });
  useTable.setState({ justKept: { kept, act: history?.acts[0]?.act } });
}

function note(id: string, error: ErrorShape): void {
  useTable.setState(({ troubles }) => ({ troubles: { ...troubles, [id]: error } }));
}

/** The item to go on with: the next one down that is not part of what was just kept. */
function nextAfter(files: readonly string[], items: readonly TableItem[]): string | undefined {
  const at = items.findIndex(({ item }) => files.includes(item));
  const rest = [...items.slice(at + 1), ...items.slice(0, Math.max(0, at))];
  return rest.find(({ item }) => !files.includes(item))?.item;
}

/** A file that is kept part by part stays on view until its last one; else the next item comes. */
function goOn({ id, draft, items }: Keeping): void {
  const next = nextPart(draft, items);
  const [file] = next?.files ?? [];
  dropDraft(id);
  choose(id === onPaperOnly ? undefined : (file ?? nextAfter(draft.files, items)));
  if (next === undefined || file === undefined) return;
  putDraft(file, next);
  pointAtFirst(next);
}

export interface Keeping {
  readonly id: string;
  readonly draft: Draft;
  readonly practice: Practice;
  readonly items: readonly TableItem[];
}

/** Keeps a draft and goes on to the next item. What is refused stays on the table, with the reason beside it. */
export async function keepDraft(keeping: Keeping): Promise<boolean> {
  const { id, draft, practice, items } = keeping;
  const paper = toKeep(draft, practice, items);
  const title = (draft.kind === undefined ? undefined : practice.papers[draft.kind]?.title) ?? draft.title;
  const named = draft.kind === 'other' ? draft.title : title;
  const reply = await perform('keep', { papers: [paper] }, { long: `Keeping ${named}`, quiet: true });
  if (!reply.ok) {
    note(id, reply.error);
    return false;
  }
  const [refused] = reply.answer.refused;
  if (refused !== undefined) {
    note(id, refused.error);
    return false;
  }
  goOn(keeping);
  await noteKept(reply.answer);
  return true;
}
