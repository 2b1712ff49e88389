import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { keepFile } from '../../core/intake/keep-file.ts';
import { fileSource } from '../../core/intake/pdfium/byte-source.ts';
import { openDocument } from '../../core/intake/pdfium/open-document.ts';
import { type PageSight, readPage } from '../../core/intake/pdfium/read-page.ts';
import type { KeepDone } from '../../core/intake/rendition-model.ts';

/** A folder of its own for each test file; `clear` it when done. */
export interface Bench {
  readonly folder: string;
  path(name: string): string;
  /** Writes the bytes as `name` and keeps them in this very process (the workers have tests of their own). */
  keep(bytes: Uint8Array, name?: string, password?: string): Promise<KeepDone & { readonly output: string }>;
  clear(): void;
}

export function bench(): Bench {
  const folder = mkdtempSync(join(tmpdir(), 'lotfile-intake-'));
  const path = (name: string) => join(folder, name);
  let count = 0;
  return {
    folder,
    path,
    async keep(bytes, name = 'paper.pdf', password) {
      count += 1;
      const input = path(`${count}-${name}`);
      const output = path(`${count}.kept`);
      writeFileSync(input, bytes);
      return { ...(await keepFile({ job: 'keep', input, name, output, password })), output };
    },
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Looks at one page of a file with the independent reader. */
export async function sightOf(path: string, page = 0): Promise<PageSight> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) throw new Error(`${path} does not open: ${outcome.why}`);
  try {
    const sight = readPage(outcome.document, page);
    if (sight === undefined) throw new Error(`page ${page} of ${path} can't be read`);
    return sight;
  } finally {
    outcome.document.close();
  }
}
