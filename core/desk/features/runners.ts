import type { Runner } from '../context.ts';
import type { RequestAnswer, RequestName } from '../contract/requests.ts';
import { backedUp } from './backup-memory.ts';
import { bundle, mend, merge, restore } from './bundles.ts';
import { calendar } from './calendar.ts';
import { comment, removeComment } from './comments.ts';
import { removeCost } from './cost-remove.ts';
import { changeOrder, costLine, invoice, notice, payment, waiver } from './cost-rows.ts';
import { costs } from './costs.ts';
import { draw, drawCheck } from './draws.ts';
import { find } from './finding.ts';
import { fillForm } from './forms/fill-form.ts';
import { formFields } from './forms/form-fields.ts';
import { mapForm } from './forms/map-form.ts';
import { handOver, handovers, packets, withdraw } from './handovers.ts';
import { houseRecord } from './house/house-record.ts';
import { inspections } from './inspections/inspections.ts';
import { blackOut } from './intake/black-out.ts';
import { keepParts } from './intake/keep-parts.ts';
import { read } from './intake/read.ts';
import { correctRecords, recordFiles, removeRecords } from './intake/record-files.ts';
import { slim } from './intake/slim.ts';
import { unpack } from './intake/unpack.ts';
import { keep } from './keeping.ts';
import { lapses } from './lapses.ts';
import { amendable, clerkSaid, practice, practiceWords, unsay } from './local-practice.ts';
import { history, undo, verify } from './looking.ts';
import { closeLot, newLot, openTheLot } from './lots.ts';
import { mailDraft } from './mail.ts';
import { withOffices } from './offices.ts';
import { packetFiles } from './packet-files.ts';
import { assemble, errandSheet, plan } from './packets.ts';
import { pages } from './pages.ts';
import { papers } from './paper-list.ts';
import { correct, notApplicable, standing } from './papers.ts';
import { anotherPaper } from './practice/another-paper.ts';
import { exportPractice, layOverFile, practiceEffect } from './practice/handing-on.ts';
import { purge } from './purge.ts';
import { errand, way } from './reading.ts';
import { answer, engage, event, identity, readLot, same, target } from './record-card.ts';
import { record, records } from './records.ts';
import { layDown, putAside, table, takeUp } from './table.ts';
import {
  answerComment,
  appliesAgain,
  correctFirm,
  endFirm,
  endIdentity,
  removeEvent,
  removeFirm,
  renameLot,
} from './taking-back.ts';
import { today } from './today.ts';
import { changeFirm, trades } from './trades.ts';
import { visit } from './visits.ts';
import { writePaper } from './written/write-paper.ts';

/** One feature for every request of the contract; the compiler sees that none is missing. */
export const runners: { readonly [N in RequestName]: Runner<RequestAnswer<N>> } = {
  'new-lot': newLot,
  'open-lot': openTheLot,
  'close-lot': closeLot,
  'read-lot': readLot,
  answer,
  target,
  event,
  identity,
  same,
  engage,
  keep,
  papers,
  correct,
  'not-applicable': notApplicable,
  standing,
  way,
  errand,
  visit,
  plan,
  assemble,
  packets,
  'hand-over': handOver,
  withdraw,
  handovers,
  find,
  history,
  undo,
  verify,
  'clerk-said': clerkSaid,
  'another-paper': anotherPaper,
  practice,
  record,
  records,
  purge,
  today,
  inspections,
  lapses,
  pages,
  'with-offices': withOffices,
  table,
  'lay-down': layDown,
  'put-aside': putAside,
  'take-up': takeUp,
  amendable,
  'practice-words': practiceWords,
  'practice-effect': practiceEffect,
  'lay-over': layOverFile,
  'export-practice': exportPractice,
  'errand-sheet': errandSheet,
  'mail-draft': mailDraft,
  'packet-files': packetFiles,
  'answer-comment': answerComment,
  'applies-again': appliesAgain,
  'end-firm': endFirm,
  'correct-firm': correctFirm,
  'remove-firm': removeFirm,
  'end-identity': endIdentity,
  'remove-event': removeEvent,
  'rename-lot': renameLot,
  unsay,
  'write-paper': writePaper,
  calendar,
  bundle,
  'backed-up': backedUp,
  restore,
  mend,
  merge,
  'house-record': houseRecord,
  costs,
  'cost-line': costLine,
  'change-order': changeOrder,
  invoice,
  payment,
  waiver,
  notice,
  draw,
  'remove-cost': removeCost,
  'draw-check': drawCheck,
  trades,
  'change-firm': changeFirm,
  comment,
  'remove-comment': removeComment,
  read,
  'keep-parts': keepParts,
  unpack,
  'black-out': blackOut,
  slim,
  'record-files': recordFiles,
  'correct-records': correctRecords,
  'remove-records': removeRecords,
  'form-fields': formFields,
  'fill-form': fillForm,
  'map-form': mapForm,
};
