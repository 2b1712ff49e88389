import type { EditionContent, KeptFile } from '../packet/plan-model.ts';
import type {
  ChangeOrder,
  CostBook,
  CostLine,
  Draw,
  Invoice,
  Payment,
  SupplierNotice,
  Waiver,
} from '../vocabulary/costs.ts';
import type { Day } from '../vocabulary/days.ts';
import type { Answer } from '../vocabulary/facts.ts';
import type {
  EditionId,
  EditionLink,
  Identity,
  LotEvent,
  LotView,
  PacketId,
  PaperId,
  SameAs,
  Standing,
  SubjectId,
  VisitId,
} from '../vocabulary/lot.ts';
import type { KindId, Practice, QuestionId } from '../vocabulary/practice.ts';
import type { MergeChoices, MergeDone } from './bundle/merge-bundle.ts';
import type { BundleWritten } from './bundle/write-bundle.ts';
import type {
  ActId,
  ActShown,
  CommentAnswer,
  CommentChange,
  CommentId,
  CostTable,
  EditionCorrection,
  FileUse,
  Handover,
  HandoverId,
  Holder,
  Kept,
  KeptFact,
  KeptOfficeWord,
  KeptPacket,
  KeptRendition,
  LaidFile,
  LotRecord,
  NewEdition,
  NewHandover,
  NewPacket,
  NewRecord,
  NewRendition,
  NewSubject,
  NewVisit,
  OfficeWord,
  OriginalCopy,
  PageWords,
  PracticeLayer,
  RecordCorrection,
  RecordId,
  TableFile,
  TakenIn,
  VisitComment,
} from './keeping-model.ts';
import type { LongWork } from './long-work.ts';

export interface CreateOptions {
  readonly title: string;
  readonly practice: Practice;
  readonly layers: readonly PracticeLayer[];
  readonly day: Day;
  readonly holder: Holder;
  /** The clock of the host; only heartbeats and the history's times read it. */
  readonly now?: (() => Date) | undefined;
}

export interface OpenOptions {
  readonly holder: Holder;
  /** Looks without a lease, beside a program that works on the lot; every writing request is refused. */
  readonly readOnly?: boolean | undefined;
  /** The person says the computer that holds the lot is gone; obeyed only after five minutes without a heartbeat. */
  readonly takeOver?: boolean | undefined;
  readonly now?: (() => Date) | undefined;
}

export interface UndoDone {
  readonly act: ActId;
  /** Title of what was taken back. */
  readonly title: string;
}

/** One hit: a page that holds the words, or a paper whose title, number, office or facts do. */
export interface SearchHit {
  readonly paper: PaperId;
  readonly title: string;
  readonly kind: KindId;
  readonly edition?: EditionId | undefined;
  /** 1-based page in the edition's reading order; undefined where the paper itself matched. */
  readonly page?: number | undefined;
  /** Where the words were found. */
  readonly why: 'title' | 'number' | 'office' | 'facts' | 'page';
  readonly snippet: string;
  /** [start, end) of the found words in `snippet`, in UTF-16 units. */
  readonly marks: readonly (readonly [number, number])[];
}

export const problemSorts = ['missing', 'changed', 'orphan', 'database', 'rows', 'second database'] as const;
export type ProblemSort = (typeof problemSorts)[number];

/** One thing wrong with the folder: whole sentences for the person. */
export interface Problem {
  readonly sort: ProblemSort;
  /** The file as the person knew it, or its path in the folder where no row knows it. */
  readonly file: string;
  readonly sha256?: string | undefined;
  readonly papers: readonly string[];
  readonly say: string;
  readonly next: string;
}

export interface VerifyReport {
  readonly originals: number;
  readonly renditions: number;
  readonly packetFiles: number;
  readonly bytes: number;
  readonly problems: readonly Problem[];
}

export interface PurgeOrder {
  readonly reason: string;
  /** Folders beside the lot where copies of the same bytes may lie. */
  readonly also?: readonly string[] | undefined;
}

export interface PurgeDone {
  /** Undefined where the rows were wiped before, and only bytes were left. */
  readonly act: ActId | undefined;
  /** The names the person knew them by. */
  readonly names: readonly string[];
  /** Titles of the papers that lost pages. */
  readonly papers: readonly string[];
  /** Packets whose files held it and were removed with it. */
  readonly packets: readonly string[];
  /** What stays, in sentences: what the disk did not let go (removing the same once more goes on), what another file has too. */
  readonly left: readonly string[];
}

/**
 * An open lot. Every change is an act: outside `act` each call is one of its own.
 * Unknown ids throw `not found`; a failing disk throws `disk`; a lost lease throws `lot busy`. Nothing is half done.
 */
export interface Lot extends Disposable {
  readonly folder: string;
  readonly readOnly: boolean;
  /** Gives the lease back and closes the database. Harmless twice. */
  close(): void;

  /** Sixteen hex digits: the same for all copies of this lot, on whatever computer, and for no other. */
  key(): string;
  view(): LotView;
  practice(): Practice;
  practiceSha(): string;
  /** A practice kept earlier, by hash: what a packet was planned by. */
  practiceBySha(sha: string): Practice;
  layers(): readonly PracticeLayer[];
  setPractice(change: { practice: Practice; layers: readonly PracticeLayer[]; title?: string | undefined }): void;
  addOfficeWord(word: OfficeWord): void;
  /** In the order they were said. */
  officeWords(): readonly KeptOfficeWord[];
  removeOfficeWord(id: number): void;

  /** Groups what `fn` does into one act; all of it or nothing. `fn` must not be async. Acts inside join the outer one. */
  act<T>(title: string, fn: () => T): T;
  /** Newest first. */
  acts(limit?: number): readonly ActShown[];
  /** Takes back an act (the newest not yet taken back, where none is named) as a new act, or throws `conflict`. */
  undo(actId?: ActId): UndoDone;

  setTitle(title: string): void;
  setTarget(day: Day | undefined): void;
  answer(question: QuestionId, answer: Answer): void;
  noteEvent(event: LotEvent): void;
  removeEvent(event: Pick<LotEvent, 'event' | 'day'>): void;
  addIdentity(identity: Identity): void;
  /** From this day on it is no longer called so. */
  endIdentity(identity: Pick<Identity, 'sort' | 'text'>, to: Day): void;
  confirmSame(same: SameAs): void;
  addSubject(subject: NewSubject): SubjectId;
  endSubject(subject: SubjectId, to: Day): void;
  changeSubject(subject: SubjectId, said: NewSubject): void;
  removeSubject(subject: SubjectId): void;

  /** Which pages of a file which editions hold, newest first. */
  usesOf(original: string): readonly FileUse[];
  /** Copies a file into originals/, hashed on the way; the person's own file is left as it is. */
  takeInOriginal(path: string, name: string): Promise<TakenIn>;
  /** Moves finished sound pages (written at a `temporaryPath`) into renditions/. */
  keepRendition(tempPath: string, kept: { rendition: NewRendition; sha256: string; bytes: number }): Promise<void>;
  /** Renditions of an original, newest first: so that nothing is worked on twice. */
  renditionsOf(original: string): readonly KeptRendition[];
  original(sha: string): KeptFile;
  originalPath(sha: string): string;
  renditionPath(sha: string): string;
  /** Words that were read off pages of a rendition (0-based) without words of their own: the search finds them then. */
  putPageTexts(rendition: string, texts: readonly { readonly page: number; readonly text: string }[]): void;
  /** What was worked out of a file before ("words-2.json"), by the file's hash; undefined where it wasn't. */
  cachedPath(sha: string, ending: string): string | undefined;
  /** The same of all files at once, by their hashes: a list of thousands asks the disk but a few hundred times. */
  cachedOf(ending: string): ReadonlyMap<string, string>;
  /** Moves what was worked out of a file from a `temporaryPath` to where it is found again. */
  keepCached(tempPath: string, at: { readonly sha: string; readonly ending: string }): string;
  /** A new path in the lot's working folder, for workers to write to. */
  temporaryPath(): string;
  /** Removes leftovers of interrupted work; the names of what it removed. */
  sweep(): readonly string[];

  /** What came in and is not kept yet, oldest first. */
  listTable(): Promise<readonly TableFile[]>;
  /** The item a path stands for, where it lies on this lot's table. */
  tableFileAt(path: string): TableFile | undefined;
  /** The hash of a file on the table, read once for as long as nothing touches it; undefined where it is gone. */
  tableHash(name: string): Promise<string | undefined>;
  /** Lays a copy on the table under the person's name for it, or the next free one. */
  layOn(path: string, name: string): Promise<LaidFile>;
  /** Moves an item into table/put-aside/; its name there. */
  putAside(name: string): string;
  /** Names of what was put aside. */
  listAside(): readonly string[];
  /** Moves a file from table/put-aside/ onto the table again; its name there. */
  takeUp(name: string): string;
  /** Takes an item that was kept off the table, where the original in the lot is whole; whether it went. */
  takeOff(path: string): Promise<boolean>;
  /** Lays originals on which no paper rests any more since this act on the table again; their names there. */
  layBack(act: ActId): Promise<readonly string[]>;

  keepEdition(edition: NewEdition): { readonly paper: PaperId; readonly edition: EditionId };
  editionContent(editions: readonly EditionId[], words?: PageWords): Readonly<Record<EditionId, EditionContent>>;
  correctEdition(edition: EditionId, correction: EditionCorrection): void;
  setMarks(edition: EditionId, marks: readonly string[]): void;
  setFacts(edition: EditionId, facts: readonly KeptFact[]): void;
  facts(edition: EditionId): readonly KeptFact[];
  setCopies(edition: EditionId, copies: readonly OriginalCopy[]): void;
  copies(edition: EditionId): readonly OriginalCopy[];
  recordStanding(edition: EditionId, standing: Standing): void;
  linkEditions(edition: EditionId, links: readonly EditionLink[]): void;
  /** A reason says the paper doesn't apply; undefined takes that back. The paper is made where there is none. */
  setNotApplicable(
    paper: { kind: KindId; title: string; subject?: SubjectId | undefined },
    reason: string | undefined,
  ): PaperId;
  setPaperTitle(paper: PaperId, title: string): void;
  /** Makes an edition one of another paper, which is found or made. */
  moveEdition(
    edition: EditionId,
    to: { readonly kind: KindId; readonly title: string; readonly subject?: SubjectId | undefined },
  ): PaperId;

  recordVisit(visit: NewVisit): VisitId;
  addComment(comment: Omit<VisitComment, 'id'>): CommentId;
  answerComment(comment: CommentId, answer: CommentAnswer): void;
  /** What they said and until when, corrected; the answer stays. */
  changeComment(comment: CommentId, change: CommentChange): void;
  removeComment(comment: CommentId): void;
  comments(visit?: VisitId): readonly VisitComment[];

  /** Moves finished files into packets/ and records what they were made from. */
  keepPacket(packet: NewPacket): Promise<KeptPacket & { readonly act: ActId }>;
  packets(): readonly KeptPacket[];
  packet(id: PacketId): KeptPacket;
  /** It was assembled as a draft; cheaper to ask than the whole plan. */
  packetIsDraft(id: PacketId): boolean;
  /** The plan as it was kept, without the text of its pages. */
  packetPlan(id: PacketId): NewPacket['plan'];
  handOver(handover: NewHandover): HandoverId;
  withdrawHandover(handover: HandoverId, withdrawal: { day: Day; reason: string }): void;
  /** All, or those that gave this edition away: who holds it. Newest first, withdrawn ones included. */
  handovers(filter?: { edition?: EditionId | undefined; packet?: PacketId | undefined }): readonly Handover[];

  addRecord(record: NewRecord): RecordId;
  correctRecord(record: RecordId, correction: RecordCorrection): void;
  removeRecord(record: RecordId): void;
  recordsOfFile(original: string): readonly RecordId[];
  records(filter?: { sort?: NewRecord['sort'] | undefined }): readonly LotRecord[];

  /** The money of the house: estimate, change orders, invoices, payments, notices, waivers, draws. */
  costs(): CostBook;
  putCostLine(line: Kept<CostLine>): string;
  putChangeOrder(order: Kept<ChangeOrder>): string;
  putInvoice(invoice: Kept<Invoice>): string;
  putPayment(payment: Kept<Payment>): string;
  putNotice(notice: Kept<SupplierNotice>): string;
  putWaiver(waiver: Kept<Waiver>): string;
  /** A new draw brings a subject of its own. */
  putDraw(draw: Kept<Omit<Draw, 'subject'>>): string;
  removeCost(table: CostTable, id: string): void;

  search(text: string, options?: { limit?: number | undefined }): readonly SearchHit[];

  /** Writes the whole lot into one file at a `temporaryPath`, read back. */
  writeBundle(path: string, given: { readonly day: Day; readonly work: LongWork }): Promise<BundleWritten>;
  /** Takes over from a bundle of this lot what is new there, in one act; nothing while conflicts wait for a choice. */
  mergeBundle(
    path: string,
    given: MergeChoices & { readonly name: string; readonly work: LongWork },
  ): Promise<MergeDone>;
  verify(work?: LongWork): Promise<VerifyReport>;
  /** Re-hashes the files of a packet before they leave the house; names what is missing, changed or removed for good. */
  checkPacket(packet: PacketId, signal?: AbortSignal): Promise<readonly Problem[]>;
  /** Quick look before assembling: are these originals and renditions there, at their full size? */
  checkFiles(shas: readonly string[]): readonly Problem[];
  /** Removes private files, their pages, words and facts for good, and leaves a marker. Can't be undone. */
  purge(files: readonly string[], order: PurgeOrder): Promise<PurgeDone>;
  /** Files by this hash or name on which nothing rests: what was kept of them was undone, or removed for good. */
  looseOriginals(said: string): readonly { readonly sha256: string; readonly name: string }[];
  /** Makes today's whole copy of the database, unless it stands; its name. Stopped, it leaves none. */
  copyOfDay(day: Day, signal?: AbortSignal): Promise<string | undefined>;
}
