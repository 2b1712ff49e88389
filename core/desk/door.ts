/** The desk's door: everything a host (terminal, desktop, loopback) may take. */

export { asDay, type Day, dayInWords, dayWithWeekday, isDay } from '../vocabulary/days.ts';
export { type ErrorCode, type ErrorShape, LotfileError } from '../vocabulary/errors.ts';
export type { Finding, NeedReading, PaperState, Weight } from '../vocabulary/finding.ts';
export { basisInWords, throughInWords, validityInWords, withThemInWords } from '../vocabulary/in-words.ts';
export { moneyInWords } from '../vocabulary/money.ts';
export { factInWords } from '../vocabulary/said-facts.ts';
export { type SampleName, sampleNames } from '../vocabulary/sample-names.ts';
export { verdictInWords, verdictOf } from '../vocabulary/verdict.ts';
export type { LaunchSettings, LaunchWorker, WorkerChild } from '../workers/launch.ts';
export type * from './contract/answers.ts';
export type * from './contract/cost-answers.ts';
export type { DeskEventName, DeskEvents } from './contract/events.ts';
export type * from './contract/form-answers.ts';
export {
  type HostActAnswer,
  type HostActArgument,
  type HostActName,
  type HostCard,
  hostActs,
  isHostActName,
  type LotOffered,
} from './contract/host-acts.ts';
export type * from './contract/lapse-answers.ts';
export {
  isRequestName,
  paperToKeep,
  type RequestAnswer,
  type RequestArgument,
  type RequestName,
  requests,
} from './contract/requests.ts';
export type * from './contract/screen-answers.ts';
export type { Reply, TakenFile, WindowAsking, WindowEvent, WindowPort } from './contract/window-port.ts';
export type * from './contract/written-answers.ts';
export { forOwnEyesOnly } from './own-eyes.ts';
