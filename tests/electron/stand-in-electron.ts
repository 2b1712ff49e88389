import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Marks the fuses in Electron's program (electron/fuses, "sentinel"): then version, count, one letter each. */
export const fuseMark = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
const fuses = '100110000';

/** Electron's folder as the packer wants to see it, without Electron in it. */
export function makeStandIn(folder: string): string {
  mkdirSync(join(folder, 'locales'), { recursive: true });
  mkdirSync(join(folder, 'resources'));
  const program = Buffer.concat([
    Buffer.from('not a program\n'),
    Buffer.from(fuseMark),
    Buffer.from([1, fuses.length]),
    Buffer.from(fuses),
    Buffer.from('\n'),
  ]);
  writeFileSync(join(folder, 'electron'), program, { mode: 0o755 });
  const small = [
    'icudtl.dat',
    'resources.pak',
    'chrome_100_percent.pak',
    'chrome_200_percent.pak',
    'version',
    'LICENSE',
  ];
  for (const name of [...small, 'LICENSES.chromium.html', 'snapshot_blob.bin', 'v8_context_snapshot.bin']) {
    writeFileSync(join(folder, name), 'stand-in');
  }
  writeFileSync(join(folder, 'locales', 'en-US.pak'), 'stand-in');
  return folder;
}
