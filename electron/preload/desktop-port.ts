import type { Reply, TakenFile, WindowEvent, WindowPort } from '../../core/desk/contract/window-port.ts';
import { channels } from '../main/channels.ts';

/** As much of Electron as the preload script uses. */
export interface PreloadParts {
  readonly ipcRenderer: {
    invoke(channel: string, ...words: unknown[]): Promise<unknown>;
    send(channel: string, ...words: unknown[]): void;
    on(channel: string, listener: (event: unknown, told: WindowEvent) => void): unknown;
    removeListener(channel: string, listener: (event: unknown, told: WindowEvent) => void): unknown;
  };
  readonly webUtils: { getPathForFile(file: File): string };
}

/** Bytes that may be sent by hand; larger files lie on a disk. */
const largestByHand = 200 * 1024 * 1024;

/** The main program checked and made it: its answers have the contract's type. */
async function reply<Answer>(sent: Promise<unknown>): Promise<Reply<Answer>> {
  try {
    return (await sent) as Reply<Answer>;
  } catch {
    const next = 'Close the window and start Lotfile again; what was kept is kept.';
    return { ok: false, error: { code: 'internal', message: 'The Lotfile program does not answer.', next } };
  }
}

/** The window's port on the desktop: messages to the main program. No path ever comes from the page or reaches it. */
export function desktopPort({ ipcRenderer, webUtils }: PreloadParts): WindowPort {
  const offerOne = async (file: File): Promise<Reply<TakenFile>> => {
    const path = webUtils.getPathForFile(file);
    if (path !== '') return reply(ipcRenderer.invoke(channels.takeFile, path));
    if (file.size > largestByHand) {
      const message = `"${file.name}" is too large to be taken like this.`;
      return {
        ok: false,
        error: { code: 'file refused', message, next: 'Save it to a folder, then drop it from there.' },
      };
    }
    return reply(ipcRenderer.invoke(channels.takeBytes, file.name, new Uint8Array(await file.arrayBuffer())));
  };
  return {
    host: 'desktop',
    ask: (name, argument, asking) => reply(ipcRenderer.invoke(channels.ask, name, argument, asking)),
    act: (name, argument) => reply(ipcRenderer.invoke(channels.act, name, argument)),
    stop: (id) => ipcRenderer.send(channels.stop, id),
    offer: (files) => Promise.all(files.map(offerOne)),
    address: (ticket, use) => `/bytes/${encodeURIComponent(ticket)}${use === 'save' ? '?save' : ''}`,
    dragOut: (ticket) => ipcRenderer.send(channels.dragOut, ticket),
    on: (listener) => {
      const hear = (_event: unknown, told: WindowEvent): void => listener(told);
      ipcRenderer.on(channels.told, hear);
      return () => void ipcRenderer.removeListener(channels.told, hear);
    },
  } satisfies WindowPort;
}
