import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Where Electron's program lies, if it was put there. Asked without loading the package: that would try to download.
 * @param project the project's folder.
 */
export function electronBinary(project: string): string | undefined {
  const folder = join(project, 'node_modules', 'electron');
  const { ELECTRON_OVERRIDE_DIST_PATH: elsewhere } = process.env;
  try {
    const name = readFileSync(join(folder, 'path.txt'), 'utf8').trim();
    const program = join(elsewhere ?? join(folder, 'dist'), name);
    return existsSync(program) ? program : undefined;
  } catch {
    return undefined;
  }
}
