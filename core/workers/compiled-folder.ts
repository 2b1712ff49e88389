import { homedir } from 'node:os';
import { join } from 'node:path';

/**
 * Where Node keeps compiled sources between runs: in the user's own cache folder. Node's own choice, the folder for
 * temporary files, may have been made there by another user of the computer, who could lay other code into it.
 */
export function compiledFolder(env: NodeJS.ProcessEnv = process.env): string {
  return env.NODE_COMPILE_CACHE ?? join(cacheFolder(env), 'lotfile', 'compiled');
}

function cacheFolder(env: NodeJS.ProcessEnv): string {
  switch (process.platform) {
    case 'win32':
      return env.LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local');
    case 'darwin':
      return join(homedir(), 'Library', 'Caches');
    default:
      return env.XDG_CACHE_HOME ?? join(homedir(), '.cache');
  }
}
