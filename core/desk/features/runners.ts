import type { Runner } from '../context.ts';
import type { RequestAnswer, RequestName } from '../contract/requests.ts';
import { handOver, handovers, packets, withdraw } from './handovers.ts';
import { keep } from './keeping.ts';
import { clerkSaid, practice } from './local-practice.ts';
import { find, history, undo, verify } from './looking.ts';
import { closeLot, newLot, openTheLot } from './lots.ts';
import { assemble, plan } from './packets.ts';
import { correct, notApplicable, papers, standing } from './papers.ts';
import { errand, way } from './reading.ts';
import { answer, engage, event, identity, readLot, same, target } from './record-card.ts';
import { purge, record, records } from './records.ts';
import { visit } from './visits.ts';

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
  practice,
  record,
  records,
  purge,
};
