import type { Ledger } from './ledger.ts';
import type { Lot } from './lot-model.ts';
import { databaseTrouble } from './trouble.ts';

/**
 * Lays one rule over the whole door: whatever the database says wrong, in whichever request, leaves as a sentence.
 * A damaged page can show itself in any read; no single request could be trusted to remember this.
 */
export function tellingPlainly(lot: Lot, ledger: Ledger): Lot {
  const fail = (error: unknown): never => {
    throw databaseTrouble(error, ledger.folder);
  };
  return new Proxy(lot, {
    get(target, key) {
      const member: unknown = Reflect.get(target, key);
      if (typeof member !== 'function') return member;
      return (...args: unknown[]): unknown => {
        try {
          const answer: unknown = Reflect.apply(member, target, args);
          return answer instanceof Promise ? answer.catch(fail) : answer;
        } catch (error) {
          return fail(error);
        }
      };
    },
  });
}
