import * as answers from './answers.ts';
import * as cache from './cache.ts';
import { copyOfDay } from './copies.ts';
import { readCosts } from './cost-book.ts';
import * as costs from './costs.ts';
import { removeFile } from './disk.ts';
import * as content from './edition-parts.ts';
import * as rows from './edition-rows.ts';
import * as handovers from './handovers.ts';
import type { Ledger } from './ledger.ts';
import type { Opened } from './lot-folder.ts';
import { lotKey } from './lot-key.ts';
import type { Lot } from './lot-model.ts';
import * as originals from './originals.ts';
import * as packets from './packets.ts';
import * as papers from './papers.ts';
import { newTemporaryPath } from './places.ts';
import * as practices from './practices.ts';
import { looseOriginals, purgeFiles } from './purge.ts';
import * as records from './records.ts';
import * as renditions from './renditions.ts';
import { searchLot } from './search.ts';
import { sweepLot } from './sweep.ts';
import * as table from './table.ts';
import { tellingPlainly } from './telling.ts';
import { actsOf, undoAct } from './undo.ts';
import { checkFiles, checkPacket, verifyLot } from './verify.ts';
import { readView } from './view.ts';
import * as visits from './visits.ts';

/** What `read` last read, kept until a change of this or another connection. */
function remembered<T>(ledger: Ledger, read: (from: Ledger) => T): () => T {
  let last: { readonly version: string; readonly value: T } | undefined;
  return () => {
    const version = ledger.translated(() => ledger.version());
    if (version !== undefined && last?.version === version) return last.value;
    const value = ledger.translated(() => ledger.db.transaction(() => read(ledger))());
    last = version === undefined ? undefined : { version, value };
    return value;
  };
}

function closing({ ledger, lease }: Opened): () => void {
  return () => {
    if (!ledger.db.open) return;
    try {
      // Half-made files are private too (an errand sheet, a draft): they don't outlive the run they were made in.
      for (const path of ledger.issued) removeFile(path, { recursive: true });
    } catch {
      // One is open elsewhere: the next opening sweeps it, and the hold on the lot must not hang on it.
    }
    try {
      // Where the disk or the folder is gone that is told; a hold this program has let go of counts as none (lease.ts).
      ledger.translated(() => lease?.release());
    } finally {
      ledger.db.close();
    }
  };
}

type Part<Keys extends keyof Lot> = Pick<Lot, Keys>;

function storyOf(
  ledger: Ledger,
): Part<
  | 'practice'
  | 'practiceSha'
  | 'practiceBySha'
  | 'layers'
  | 'setPractice'
  | 'addOfficeWord'
  | 'officeWords'
  | 'removeOfficeWord'
  | 'act'
  | 'acts'
  | 'undo'
  | 'setTitle'
  | 'setTarget'
  | 'answer'
  | 'noteEvent'
  | 'removeEvent'
  | 'addIdentity'
  | 'endIdentity'
  | 'confirmSame'
  | 'addSubject'
  | 'endSubject'
  | 'changeSubject'
  | 'removeSubject'
> {
  const inForce = remembered(ledger, practices.practiceInForce);
  return {
    practice: () => inForce().practice,
    practiceSha: () => inForce().sha,
    practiceBySha: (sha) => practices.practiceBySha(ledger, sha),
    layers: () => inForce().layers,
    setPractice: (change) => practices.setPractice(ledger, change),
    addOfficeWord: (word) => practices.addOfficeWord(ledger, word),
    officeWords: () => practices.officeWords(ledger),
    removeOfficeWord: (id) => practices.removeOfficeWord(ledger, id),
    act: (title, fn) => ledger.act(title, fn),
    acts: (limit = 50) => actsOf(ledger, limit),
    undo: (actId) => undoAct(ledger, actId),
    setTitle: (title) => answers.setTitle(ledger, title),
    setTarget: (day) => answers.setTarget(ledger, day),
    answer: (question, answer) => answers.answer(ledger, question, answer),
    noteEvent: (event) => answers.noteEvent(ledger, event),
    removeEvent: (event) => answers.removeEvent(ledger, event),
    addIdentity: (identity) => answers.addIdentity(ledger, identity),
    endIdentity: (identity, to) => answers.endIdentity(ledger, identity, to),
    confirmSame: (same) => answers.confirmSame(ledger, same),
    addSubject: (subject) => answers.addSubject(ledger, subject),
    endSubject: (subject, to) => answers.endSubject(ledger, subject, to),
    changeSubject: (subject, said) => answers.changeSubject(ledger, subject, said),
    removeSubject: (subject) => answers.removeSubject(ledger, subject),
  };
}

function filesOf(
  ledger: Ledger,
): Part<
  | 'usesOf'
  | 'takeInOriginal'
  | 'keepRendition'
  | 'renditionsOf'
  | 'original'
  | 'originalPath'
  | 'renditionPath'
  | 'temporaryPath'
  | 'putPageTexts'
  | 'cachedPath'
  | 'cachedOf'
  | 'keepCached'
  | 'sweep'
  | 'verify'
  | 'checkFiles'
  | 'checkPacket'
  | 'purge'
  | 'looseOriginals'
  | 'copyOfDay'
  | 'search'
  | 'writeBundle'
  | 'mergeBundle'
> {
  return {
    usesOf: (sha) => originals.usesOf(ledger, sha),
    takeInOriginal: (path, name) => originals.takeIn(ledger, path, name),
    keepRendition: (temporary, kept) => renditions.keep(ledger, temporary, kept),
    renditionsOf: (original) => renditions.renditionsOf(ledger, original),
    original: (sha) => originals.originalInfo(ledger, sha),
    originalPath: (sha) => originals.pathOfOriginal(ledger, sha),
    renditionPath: (sha) => renditions.pathOfRendition(ledger, sha),
    temporaryPath: () => newTemporaryPath(ledger),
    putPageTexts: (rendition, texts) => renditions.putPageTexts(ledger, rendition, texts),
    cachedOf: (ending) => cache.cachedOf(ledger, ending),
    cachedPath: (sha, ending) => cache.cachedPath(ledger, sha, ending),
    keepCached: (temporary, at) => cache.keepCached(ledger, temporary, at),
    sweep: () => sweepLot(ledger),
    verify: (work = {}) => verifyLot(ledger, work),
    checkFiles: (shas) => checkFiles(ledger, shas),
    checkPacket: (id, signal) => checkPacket(ledger, id, signal),
    purge: (shas, order) => purgeFiles(ledger, shas, order),
    looseOriginals: (said) => looseOriginals(ledger, said),
    copyOfDay: (day, signal) => copyOfDay(ledger, day, signal),
    // Loaded on first need: most runs write and read no bundle.
    writeBundle: async (path, given) => (await import('./bundle/write-bundle.ts')).writeBundle(ledger, path, given),
    mergeBundle: async (path, given) => (await import('./bundle/merge-bundle.ts')).mergeBundle(ledger, path, given),
    search: (text, options = {}) => searchLot(ledger, text, options.limit ?? 20),
  };
}

function tableOf(
  ledger: Ledger,
): Part<
  'listTable' | 'tableFileAt' | 'tableHash' | 'layOn' | 'putAside' | 'listAside' | 'takeUp' | 'takeOff' | 'layBack'
> {
  return {
    listTable: () => table.listTable(ledger),
    tableFileAt: (path) => table.tableFileAt(ledger, path),
    tableHash: (name) => table.tableHash(ledger, name),
    layOn: (path, name) => table.layOn(ledger, path, name),
    putAside: (name) => table.putAside(ledger, name),
    listAside: () => table.listAside(ledger),
    takeUp: (name) => table.takeUp(ledger, name),
    takeOff: (path) => table.takeOff(ledger, path),
    layBack: (act) => table.layBack(ledger, act),
  };
}

function papersOf(
  ledger: Ledger,
): Part<
  | 'keepEdition'
  | 'editionContent'
  | 'correctEdition'
  | 'setMarks'
  | 'setFacts'
  | 'facts'
  | 'setCopies'
  | 'copies'
  | 'recordStanding'
  | 'linkEditions'
  | 'setNotApplicable'
  | 'setPaperTitle'
  | 'moveEdition'
> {
  const change = (edition: string, what: string, write: () => void) =>
    rows.changeEdition(ledger, edition, { what, write });
  return {
    keepEdition: (edition) => papers.keepEdition(ledger, edition),
    editionContent: (ids, words) => content.contentsOf(ledger, ids, words),
    correctEdition: (edition, correction) => rows.correctEdition(ledger, edition, correction),
    setMarks: (edition, marks) => change(edition, 'Marks', () => rows.writeMarks(ledger, edition, marks)),
    setFacts: (edition, facts) => change(edition, 'Facts', () => rows.writeFacts(ledger, edition, facts)),
    facts: (edition) => rows.factsOf(ledger, edition),
    setCopies: (edition, copies) => change(edition, 'Whereabouts', () => rows.writeCopies(ledger, edition, copies)),
    copies: (edition) => rows.copiesOf(ledger, edition),
    recordStanding: (edition, standing) => rows.recordStanding(ledger, edition, standing),
    linkEditions: (edition, links) => change(edition, 'Links', () => rows.writeLinks(ledger, edition, links)),
    setNotApplicable: (paper, reason) => papers.setNotApplicable(ledger, paper, reason),
    moveEdition: (edition, key) => papers.moveEdition(ledger, edition, key),
    setPaperTitle: (paper, title) => papers.setPaperTitle(ledger, paper, title),
  };
}

function errandsOf(
  ledger: Ledger,
): Part<
  | 'recordVisit'
  | 'addComment'
  | 'answerComment'
  | 'changeComment'
  | 'removeComment'
  | 'comments'
  | 'keepPacket'
  | 'packets'
  | 'packet'
  | 'packetPlan'
  | 'packetIsDraft'
  | 'handOver'
  | 'withdrawHandover'
  | 'handovers'
  | 'addRecord'
  | 'correctRecord'
  | 'removeRecord'
  | 'recordsOfFile'
  | 'records'
> {
  const noted = remembered(ledger, records.allRecords);
  return {
    recordVisit: (visit) => visits.recordVisit(ledger, visit),
    addComment: (comment) => visits.addComment(ledger, comment),
    answerComment: (comment, answer) => visits.answerComment(ledger, comment, answer),
    changeComment: (comment, change) => visits.changeComment(ledger, comment, change),
    removeComment: (comment) => visits.removeComment(ledger, comment),
    comments: (visit) => visits.commentsOf(ledger, visit),
    keepPacket: (packet) => packets.keepPacket(ledger, packet),
    packets: () => packets.allPackets(ledger),
    packet: (id) => packets.packetById(ledger, id),
    packetPlan: (id) => packets.planOf(ledger, id),
    packetIsDraft: (id) => packets.isDraft(ledger, id),
    handOver: (handover) => handovers.handOver(ledger, handover),
    withdrawHandover: (id, withdrawal) => handovers.withdrawHandover(ledger, id, withdrawal),
    handovers: (filter = {}) => handovers.handoversOf(ledger, filter),
    addRecord: (record) => records.addRecord(ledger, record),
    correctRecord: (id, correction) => records.correctRecord(ledger, id, correction),
    removeRecord: (id) => records.removeRecord(ledger, id),
    recordsOfFile: (sha) => records.recordsOfFile(ledger, sha),
    records: ({ sort } = {}) => (sort === undefined ? noted() : noted().filter((record) => record.sort === sort)),
  };
}

function moneyOf(
  ledger: Ledger,
): Part<
  | 'costs'
  | 'putCostLine'
  | 'putChangeOrder'
  | 'putInvoice'
  | 'putPayment'
  | 'putNotice'
  | 'putWaiver'
  | 'putDraw'
  | 'removeCost'
> {
  return {
    costs: remembered(ledger, readCosts),
    putCostLine: (line) => costs.putCostLine(ledger, line),
    putChangeOrder: (order) => costs.putChangeOrder(ledger, order),
    putInvoice: (invoice) => costs.putInvoice(ledger, invoice),
    putPayment: (payment) => costs.putPayment(ledger, payment),
    putNotice: (notice) => costs.putNotice(ledger, notice),
    putWaiver: (waiver) => costs.putWaiver(ledger, waiver),
    putDraw: (draw) => costs.putDraw(ledger, draw),
    removeCost: (table, id) => costs.removeCost(ledger, table, id),
  };
}

/** Gathers the store's modules behind the one door. */
export function lotOf(opened: Opened): Lot {
  const { ledger } = opened;
  const close = closing(opened);
  const lot: Lot = {
    folder: ledger.folder,
    readOnly: ledger.readOnly,
    close,
    [Symbol.dispose]: close,
    key: remembered(ledger, ({ db }) => lotKey(db)),
    view: remembered(ledger, readView),
    ...storyOf(ledger),
    ...filesOf(ledger),
    ...tableOf(ledger),
    ...papersOf(ledger),
    ...errandsOf(ledger),
    ...moneyOf(ledger),
  };
  return tellingPlainly(lot, ledger);
}
