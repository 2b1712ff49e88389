import { join } from 'node:path';
import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  Notification,
  nativeTheme,
  protocol,
  session,
  shell,
  utilityProcess,
} from 'electron';
import { forOwnEyesOnly } from '../../core/desk/door.ts';
import { startDesktop } from './desktop.ts';
import type { Parts } from './parts.ts';

/** Electron's own module, checked against what we use of it. */
const parts = {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  Notification,
  nativeTheme,
  protocol,
  session: () => session.defaultSession,
  shell,
  utilityProcess,
} satisfies Parts;

forOwnEyesOnly();
const program = join(import.meta.dirname, '..', '..');
// No top-level await: Electron is ready only once this module has run.
startDesktop({
  parts,
  window: join(program, 'renderer'),
  preload: join(program, 'electron', 'preload', 'preload.cjs'),
}).catch((error: unknown) => {
  dialog.showErrorBox('Lotfile could not start', error instanceof Error ? error.message : String(error));
  app.exit(1);
});
