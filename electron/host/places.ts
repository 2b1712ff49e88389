import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';

/** The two folders a host keeps things in; tests bring their own. */
export interface Places {
  /** Small private things: lots opened before, the browser's secret, the sample lot. */
  readonly config: string;
  /** Where new lots go. */
  readonly lots: string;
}

function configBase(home: string): string {
  const { APPDATA, XDG_CONFIG_HOME } = process.env;
  if (process.platform === 'win32') return APPDATA ?? join(home, 'AppData', 'Roaming');
  if (process.platform === 'darwin') return join(home, 'Library', 'Application Support');
  return XDG_CONFIG_HOME ?? join(home, '.config');
}

/** Where this computer's user would look for them. */
export function usualPlaces(home = homedir()): Places {
  const documents = join(home, 'Documents');
  return {
    config: join(configBase(home), 'Lotfile'),
    lots: join(existsSync(documents) ? documents : home, 'Lotfile'),
  };
}

/** "heron-lane, in Documents, Lotfile": a folder as a person would tell it. Only ever shown. */
export function placeInWords(path: string, home = homedir()): string {
  const inside = relative(home, path);
  const away = inside === '' || inside === '..' || inside.startsWith(`..${sep}`);
  const shown = away ? path : inside;
  const parent = dirname(shown);
  const name = shown.slice(shown.lastIndexOf(sep) + 1);
  if (parent === '.') return `${name}, in your home folder`;
  if (parent === shown) return name;
  return `${name}, in ${away ? parent : parent.split(sep).join(' › ')}`;
}
