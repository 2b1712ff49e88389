/** Stands in for the `electron` module where the packed program runs under node: see electron-hook.ts. */
import type { PreloadParts } from '../../electron/preload/desktop-port.ts';
import { fakeElectron } from './fake-electron.ts';

export const fake = fakeElectron();
/** What the preload script gave to the page. */
export const exposed = new Map<string, unknown>();
/** Where dropped files lie. */
export const paths = new Map<File, string>();

export const { app, BrowserWindow, ipcMain, Menu, Notification, nativeTheme, protocol, shell, utilityProcess } =
  fake.parts;
export const dialog = {
  ...fake.parts.dialog,
  showErrorBox: (title: string, content: string) => process.stderr.write(`${title}: ${content}\n`),
};
export const session = {
  get defaultSession() {
    return fake.parts.session();
  },
};

function preload(): PreloadParts {
  const [window] = fake.windows;
  if (window === undefined) throw new Error('No window is open.');
  return fake.preloadOf(window, paths);
}

export const contextBridge = {
  exposeInMainWorld: (name: string, port: unknown): void => void exposed.set(name, port),
};
export const ipcRenderer: PreloadParts['ipcRenderer'] = {
  invoke: (channel, ...words) => preload().ipcRenderer.invoke(channel, ...words),
  send: (channel, ...words) => preload().ipcRenderer.send(channel, ...words),
  on: (channel, listener) => preload().ipcRenderer.on(channel, listener),
  removeListener: (channel, listener) => preload().ipcRenderer.removeListener(channel, listener),
};
export const webUtils: PreloadParts['webUtils'] = { getPathForFile: (file) => preload().webUtils.getPathForFile(file) };
