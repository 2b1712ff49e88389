import type { Day } from '../../core/desk/door.ts';
import { HandedOver } from '../host/handed-over.ts';
import { type Places, usualPlaces } from '../host/places.ts';
import { WindowDesk } from '../host/window-desk.ts';
import { WindowFiles } from '../served/window-files.ts';
import type { Desktop } from './desktop-model.ts';
import { dialogsOf } from './dialogs.ts';
import type { Parts } from './parts.ts';
import { askBeforeLeaving, denyPermissions, keepFromStraying, refuseRemote } from './set-ups/closed-doors.ts';
import { dragOut } from './set-ups/drag-out.ts';
import { endings } from './set-ups/endings.ts';
import { menus } from './set-ups/menus.ts';
import { messages } from './set-ups/messages.ts';
import { notices } from './set-ups/notices.ts';
import { declareProtocol, ownProtocol } from './set-ups/own-protocol.ts';
import { utilityWorker } from './utility-worker.ts';
import { Windows } from './windows.ts';

/** Where the program's own parts lie. */
export interface Program {
  readonly window: string;
  readonly preload: string;
}

export interface DesktopOptions extends Program {
  readonly parts: Parts;
  readonly places?: Places | undefined;
  readonly today?: (() => Day) | undefined;
}

type SetUp = (desktop: Desktop) => void;

/** Everything the program is made of, in the order it happens: before Electron is ready, and after. */
const before: readonly SetUp[] = [declareProtocol, keepFromStraying, askBeforeLeaving, endings];
const ready: readonly SetUp[] = [denyPermissions, refuseRemote, ownProtocol, messages, dragOut, menus, notices];

/**
 * Starts the desktop host. Where it runs already, that one comes to the front and this one ends.
 * @returns when the first window is on its way.
 */
export async function startDesktop(options: DesktopOptions): Promise<Desktop | undefined> {
  const { parts, window, preload, today, places = usualPlaces() } = options;
  const { app } = parts;
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return undefined;
  }
  app.enableSandbox();
  app.setAppUserModelId('org.lotfile.desktop');
  const desktop: Desktop = {
    parts,
    host: new WindowDesk({
      program: 'Lotfile (desktop window)',
      version: app.getVersion(),
      places,
      dialogs: dialogsOf(parts),
      today,
      launchWorker: utilityWorker(parts.utilityProcess),
    }),
    files: new WindowFiles(window),
    handedOver: new HandedOver(places.config, 'desktop'),
    windows: new Windows(parts, preload),
  };
  for (const setUp of before) setUp(desktop);
  await app.whenReady();
  for (const setUp of ready) setUp(desktop);
  await desktop.windows.open();
  return desktop;
}
