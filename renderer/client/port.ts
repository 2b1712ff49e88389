import type { WindowPort } from '../../core/desk/contract/window-port.ts';
import { browserPort } from './browser-port.ts';

declare global {
  interface Window {
    /** Put there by the preload script of the desktop; absent in a browser. */
    readonly lotfile?: WindowPort;
  }
}

/** The window's one way out, whichever host it runs in. */
export const port: WindowPort = window.lotfile ?? browserPort();
