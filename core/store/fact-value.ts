import type { FactSort, FactValue } from '../vocabulary/facts.ts';
import { storedJson } from './stored-json.ts';

/** A fact as it is kept: its sort, and its value as JSON that the store itself wrote. */
export function readFact(row: { readonly sort: FactSort; readonly value: string }): FactValue {
  return { sort: row.sort, value: storedJson(row.value) };
}
