import { create } from 'zustand';
import type { KeptPaper } from '../../../core/desk/contract/answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { SeenRect } from '../../../core/vocabulary/lot.ts';
import type { LinkSaid } from '../papers/LinkFields.tsx';

export type LinkTo = LinkSaid;

export type Turn = 0 | 90 | 180 | 270;

/** A paper being made out of what lies on the table: kept in the window until it is kept in the lot. */
export interface Draft {
  /** Names of items on the table, in the order of their pages. */
  readonly files: readonly string[];
  /** Which pages of a file belong to it ("1-3, 5"), and how far they are turned, by the file's name. */
  readonly picks: Readonly<Record<string, string>>;
  readonly turns: Readonly<Record<string, Turn>>;
  /** Pages not picked are of no use: the file goes when this is kept. */
  readonly leaveRest: boolean;
  readonly kind?: string | undefined;
  /** Only where it is of no kind the practice knows. */
  readonly title: string;
  readonly subject?: string | undefined;
  readonly issued?: Day | undefined;
  readonly effective?: Day | undefined;
  readonly goodThrough?: Day | undefined;
  readonly number: string;
  readonly issuer: string;
  readonly revision: string;
  readonly facts: Readonly<Record<string, string>>;
  readonly marks: readonly string[];
  readonly links: readonly LinkSaid[];
  /** Opens a locked file; asked for where it can’t be read without, and kept nowhere. */
  readonly password?: string | undefined;
  /** The password as it was last tried for reading. */
  readonly opened?: string | undefined;
  /** Of a file that is kept part by part: which of them it is, by its pages as they were suggested. */
  readonly part?: string | undefined;
}

/** The draft of a paper that has no file: it is held in the hand. */
export const onPaperOnly = 'on paper only';

/** With a place: a page in the order of the draft's pages, 0-based; without one: a page of the file on view. */
export interface Pointed {
  readonly page: number;
  readonly place?: SeenRect | undefined;
}

/** What was said of a file that looks like several papers. */
export interface Parting {
  /** They are kept one by one, or it is one after all; undefined where it is to be asked again. */
  readonly how: 'one by one' | 'one paper' | undefined;
  /** When the file came: another one of its name is not meant. */
  readonly since: string;
  /** What was filled in for each part, and for the file as a whole, while another was on the card. */
  readonly drafts: Readonly<Record<string, Draft>>;
}

/** The last keeping: told at the head of the table until it is put away, and taken back from there. */
export interface JustKept {
  readonly kept: readonly KeptPaper[];
  readonly act?: string | undefined;
}

export interface TableState {
  /** The lot all this is about. */
  readonly lot?: string | undefined;
  readonly drafts: Readonly<Record<string, Draft>>;
  /** The item on view, or `onPaperOnly`. */
  readonly chosen?: string | undefined;
  readonly troubles: Readonly<Record<string, ErrorShape>>;
  readonly justKept?: JustKept | undefined;
  /** A place on a page of the draft that was asked for; a new object turns there again. */
  readonly pointed?: Pointed | undefined;
  /** By the file's name. */
  readonly parted: Readonly<Record<string, Parting>>;
  /** Files on their way from the person's disk to the table. */
  readonly taking: number;
}

const fresh: TableState = { drafts: {}, troubles: {}, parted: {}, taking: 0 };

export const useTable = create<TableState>()(() => fresh);

/** What was begun for another lot is of no use in this one. */
export function tableOf(lot: string | undefined): void {
  if (useTable.getState().lot !== lot)
    useTable.setState({ ...fresh, lot, chosen: undefined, justKept: undefined, pointed: undefined });
}

export function emptyDraft(files: readonly string[], kind?: string, subject?: string): Draft {
  const nothing = { title: '', number: '', issuer: '', revision: '', facts: {}, marks: [], links: [] };
  return { files, picks: {}, turns: {}, leaveRest: false, kind, subject, ...nothing };
}

/** The draft an item belongs to: one that was begun with another file and took this one in, or its own. */
export function draftIdOf({ drafts }: Pick<TableState, 'drafts'>, item: string): string {
  return Object.entries(drafts).find(([, { files }]) => files.includes(item))?.[0] ?? item;
}

export function putDraft(id: string, draft: Draft): void {
  useTable.setState(({ drafts, troubles }) => ({
    drafts: { ...drafts, [id]: draft },
    troubles: Object.fromEntries(Object.entries(troubles).filter(([each]) => each !== id)),
  }));
}

/** Gives a draft its files; what they were drafted as before is let go, and the draft goes by its first file. */
export function putFiles(id: string, draft: Draft, files: readonly string[]): void {
  const [first = id] = files;
  const next = files.includes(id) ? id : first;
  useTable.setState(({ drafts }) => {
    const others = Object.entries(drafts).filter(([each]) => each !== id && !files.includes(each));
    return { drafts: { ...Object.fromEntries(others), [next]: { ...draft, files } } };
  });
}

export function dropDraft(id: string): void {
  useTable.setState(({ drafts }) => ({
    drafts: Object.fromEntries(Object.entries(drafts).filter(([each]) => each !== id)),
  }));
}

export function choose(item: string | undefined): void {
  useTable.setState({ chosen: item, pointed: undefined });
}

/** Turns to a place on the draft's pages. */
export function pointAt(pointed: Pointed): void {
  useTable.setState({ pointed });
}
