import type { HandedOver } from '../host/handed-over.ts';
import type { WindowDesk } from '../host/window-desk.ts';
import type { WindowFiles } from '../served/window-files.ts';
import type { Parts } from './parts.ts';
import type { Windows } from './windows.ts';

/** What every set-up of the desktop program may use. */
export interface Desktop {
  readonly parts: Parts;
  readonly host: WindowDesk;
  readonly files: WindowFiles;
  readonly handedOver: HandedOver;
  readonly windows: Windows;
}
