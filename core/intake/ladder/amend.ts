import { appendFileSync, copyFileSync, rmSync, statSync } from 'node:fs';
import type { KeepContext } from '../keep-context.ts';
import { normalise } from '../normalise.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { appendedTail } from '../regular/append.ts';
import { RegularFile } from '../regular/regular-file.ts';
import type { Value } from '../regular/values.ts';

type Change = (file: RegularFile) => ReadonlyMap<number, Value> | undefined;

function tailFor(path: string, change: Change): Buffer | undefined {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    const changed = change(file);
    return changed === undefined ? undefined : appendedTail(file, changed, statSync(path).size);
  } finally {
    source.close();
  }
}

/**
 * Changes objects of the file at the job's output, and rewrites it.
 * @returns false where that failed
 */
export async function amend(context: KeepContext, change: Change): Promise<boolean> {
  const { output } = context.job;
  const tail = tailFor(output, change);
  if (tail === undefined) return true;
  const scrap = context.scrap(2);
  try {
    copyFileSync(output, scrap);
    appendFileSync(scrap, tail);
    return await normalise(scrap, output);
  } finally {
    rmSync(scrap, { force: true });
  }
}
