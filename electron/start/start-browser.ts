import { forOwnEyesOnly } from '../../core/desk/door.ts';
import { usualPlaces } from '../host/places.ts';
import { WindowDesk } from '../host/window-desk.ts';
import { openLoopback } from '../loopback/loopback-host.ts';
import { openBrowser } from './open-browser.ts';
import { rememberLot } from './remember-lot.ts';
import { runningHost } from './running-host.ts';

export interface BrowserStart {
  readonly version: string;
  /** The built window. */
  readonly window: string;
  readonly open: boolean;
  /** A lot folder to put into the list. */
  readonly lot?: string | undefined;
}

function say(text: string): void {
  process.stdout.write(`${text}\n`);
}

function asked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}

async function show(address: string, open: boolean): Promise<void> {
  say(`\n  ${address}\n`);
  if (open && !(await openBrowser(address))) say('No browser could be opened from here: open the address yourself.');
}

/** Serves the window on this computer until it is told to stop. */
export async function startBrowser({ version, window, open, lot }: BrowserStart): Promise<void> {
  forOwnEyesOnly();
  const places = usualPlaces();
  if (lot !== undefined) await rememberLot({ folder: lot, places, version });
  const running = await runningHost(places.config);
  if (running !== undefined) {
    say('Lotfile is running already. The address below opens it once more; it is good for one use.');
    return show(running, open);
  }
  await using host = new WindowDesk({ program: 'Lotfile (browser window)', version, places });
  await using loopback = await openLoopback({ host, window });
  say('Lotfile is open for this computer alone. The address is good for one use; Ctrl-C ends it.');
  await show(loopback.address(), open);
  await asked();
  say('\nClosing the lots ...');
}
