import type { RequestName } from '../desk/door.ts';

/**
 * Fields that may be written without their `--word`, in this order; `...field` takes all that is left.
 * Everything else of the command line is read off the contract.
 */
export const positionals: Partial<Readonly<Record<RequestName, readonly string[]>>> = {
  'new-lot': ['folder'],
  answer: ['question', 'answer'],
  target: ['day'],
  event: ['event', 'day'],
  identity: ['sort', 'text'],
  same: ['sort', 'a', 'b'],
  engage: ['firm', 'trade'],
  keep: ['...files'],
  papers: ['kind'],
  correct: ['edition'],
  'not-applicable': ['paper', 'why'],
  standing: ['edition', 'office', 'word'],
  errand: ['errand'],
  visit: ['errand', 'state'],
  plan: ['errand'],
  assemble: ['errand'],
  'hand-over': ['packet', 'to', 'how'],
  withdraw: ['handover', 'reason'],
  find: ['text'],
  undo: ['act'],
  'clerk-said': ['rule', 'value'],
  record: ['sort', 'title'],
  purge: ['edition', 'reason'],
};
