/**
 * `npm start`: builds what is missing or older than its sources, then opens the desktop window; where Electron's
 * program can't be had, the same window in a browser. `-- --browser` asks for the browser, `-- --no-open` only prints
 * the address, `-- --lot FOLDER` puts a lot that lies anywhere into the list.
 */
import { spawn } from 'node:child_process';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { LotfileError } from '../core/desk/door.ts';
import { usualPlaces } from './host/places.ts';
import { buildProgram } from './packaging/build-program.ts';
import { buildWindow, windowIn } from './packaging/build-window.ts';
import { isStale } from './packaging/newest.ts';
import { projectCard } from './packaging/project-card.ts';
import { electronBinary } from './start/electron-binary.ts';
import { rememberLot } from './start/remember-lot.ts';
import { startBrowser } from './start/start-browser.ts';

const project = join(import.meta.dirname, '..');
const app = join(project, 'dist', 'app');

function say(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** Runs the built program in Electron until its last window is closed. */
async function startDesktop(electron: string): Promise<void> {
  const sources = ['electron', 'core', 'templates', 'sample-project', 'dist/renderer', 'package.json'];
  if (
    isStale(
      join(app, 'package.json'),
      sources.map((name) => join(project, name)),
    )
  ) {
    say('Building the program ...');
    await buildProgram({ project, window: windowIn(project), out: app });
  }
  const child = spawn(electron, [app], { stdio: 'inherit' });
  process.exitCode = await new Promise<number>((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? 0));
  });
}

const usage = `npm start                        opens the window
npm start -- --lot FOLDER        the same, with the lot in that folder in its list
npm start -- --browser           in a browser, though the desktop program is there
npm start -- --browser --no-open prints the address instead of opening a browser
npm start -- --help              this

The terminal does the whole job as well: npm run lotfile -- --help`;

const options = {
  browser: { type: 'boolean' },
  'no-open': { type: 'boolean' },
  lot: { type: 'string' },
  help: { type: 'boolean', short: 'h' },
} as const;

/** What stands behind the two dashes; a word nobody knows is answered with those one may write. */
function given() {
  try {
    return parseArgs({ options }).values;
  } catch (cause) {
    const message = cause instanceof Error ? (cause.message.split('. ')[0] ?? '') : '';
    throw new LotfileError('wrong use', `${message}.`, { next: usage, cause });
  }
}

async function start(): Promise<void> {
  const values = given();
  if (values.help === true) return say(usage);
  await buildWindow(project, () => say('Building the window ...'));
  const electron = values.browser === true ? undefined : electronBinary(project);
  if (electron === undefined && values.browser !== true) {
    say('The desktop program (Electron) is not on this computer, so the window opens in a browser.');
  }
  const { version } = projectCard(project);
  // npm starts us in the project's folder and tells where the person stands.
  const lot = values.lot === undefined ? undefined : resolve(process.env.INIT_CWD ?? process.cwd(), values.lot);
  if (electron !== undefined) {
    if (lot !== undefined) await rememberLot({ folder: lot, places: usualPlaces(), version });
    return startDesktop(electron);
  }
  return startBrowser({ version, window: windowIn(project), open: values['no-open'] !== true, lot });
}

try {
  await start();
} catch (thrown) {
  const error = LotfileError.from(thrown);
  process.stderr.write(`${[error.message, error.next].filter((text) => text !== undefined).join('\n')}\n`);
  process.exitCode = 1;
}
