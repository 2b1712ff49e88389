import { createRequire } from 'node:module';
import createQpdf from '@neslinesli93/qpdf-wasm';

interface WritableFiles {
  writeFile(path: string, bytes: Uint8Array): void;
  readFile(path: string): Uint8Array;
}

function canWrite(files: object): files is WritableFiles {
  return 'writeFile' in files && 'readFile' in files;
}

/** Locks a PDF with an owner password only: anyone may read it, programs that edit are told not to. */
export async function lockForOwner(pdf: Uint8Array): Promise<Uint8Array> {
  const wasm = createRequire(import.meta.url).resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm');
  const qpdf = await createQpdf({ locateFile: () => wasm });
  const files: object = qpdf.FS;
  if (!canWrite(files)) throw new Error('This qpdf build has no file system to write to.');
  files.writeFile('/in.pdf', pdf);
  const code = qpdf.callMain([
    '--static-id',
    '--encrypt',
    '',
    'invented-owner',
    '256',
    '--modify=none',
    '--',
    '/in.pdf',
    '/out.pdf',
  ]);
  if (code !== 0) throw new Error(`qpdf ended with ${code} while locking a file.`);
  return files.readFile('/out.pdf');
}
