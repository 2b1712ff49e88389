/**
 * `npm start`: builds what is missing or older than its sources, then opens the desktop window; where Electron's
 * program can't be had, the same window in a browser. `-- --browser` asks for the browser, `-- --no-open` only prints
 * the address.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'vite';
import * as z from 'zod';
import { LotfileError } from '../core/desk/door.ts';
import { electronBinary } from './start/electron-binary.ts';
import { isStale } from './start/newest.ts';
import { startBrowser } from './start/start-browser.ts';

const project = join(import.meta.dirname, '..');
const window = join(project, 'dist', 'renderer');

function version(): string {
  const card: unknown = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8'));
  return z.object({ version: z.string() }).parse(card).version;
}

async function buildWindow(): Promise<void> {
  const sources = ['renderer', 'core', 'package.json'].map((name) => join(project, name));
  if (!isStale(join(window, 'index.html'), sources)) return;
  process.stdout.write('Building the window ...\n');
  await build({ configFile: join(project, 'renderer', 'vite.config.ts'), logLevel: 'warn' });
}

async function start(): Promise<void> {
  const { values } = parseArgs({ options: { browser: { type: 'boolean' }, 'no-open': { type: 'boolean' } } });
  await buildWindow();
  const electron = values.browser === true ? undefined : electronBinary(project);
  if (electron === undefined && values.browser !== true) {
    process.stdout.write('The desktop program (Electron) is not on this computer, so the window opens in a browser.\n');
  }
  await startBrowser({ version: version(), window, open: values['no-open'] !== true });
}

try {
  await start();
} catch (thrown) {
  const error = LotfileError.from(thrown);
  process.stderr.write(`${[error.message, error.next].filter((text) => text !== undefined).join('\n')}\n`);
  process.exitCode = 1;
}
