import { createContext, Script } from 'node:vm';

const call = new Script('work()');

/**
 * Runs a decoder that never looks up, and stops it when its time is over: some loop for ever on damaged bytes.
 * @throws Error with "timeout" in it where it was stopped
 */
export function withinTime<T>(seconds: number, work: () => T): T {
  const made: T[] = [];
  const place = createContext({ work: () => void made.push(work()) });
  try {
    call.runInContext(place, { timeout: Math.ceil(seconds * 1000) });
  } catch (problem) {
    // It is an error of another realm.
    const code = typeof problem === 'object' && problem !== null && 'code' in problem ? problem.code : undefined;
    if (code === 'ERR_SCRIPT_EXECUTION_TIMEOUT') throw new Error('timeout: the decoder did not come to an end');
    throw problem;
  }
  const [result] = made;
  if (result === undefined) throw new Error('the decoder gave nothing');
  return result;
}
