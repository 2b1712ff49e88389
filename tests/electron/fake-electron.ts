import { fork } from 'node:child_process';
import { EventEmitter } from 'node:events';
import type { BrowserWindowConstructorOptions, MenuItemConstructorOptions, MessageBoxOptions } from 'electron';
import type {
  ContentsPart,
  FramePart,
  IpcPart,
  NotificationPart,
  Parts,
  SenderEvent,
  WindowPart,
} from '../../electron/main/parts.ts';
import type { PreloadParts } from '../../electron/preload/desktop-port.ts';

class FakeContents extends EventEmitter implements ContentsPart {
  readonly id: number;
  readonly mainFrame: FramePart & { url: string } = { url: '' };
  readonly sent: { readonly channel: string; readonly told: object }[] = [];
  readonly dragged: { readonly file: string; readonly icon: string }[] = [];
  openHandler: ((wanted: { readonly url: string }) => { action: 'deny' }) | undefined;
  reloads = 0;

  constructor(id: number) {
    super();
    this.id = id;
  }
  getURL(): string {
    return this.mainFrame.url;
  }
  isDestroyed(): boolean {
    return false;
  }
  reload(): void {
    this.reloads += 1;
  }
  send(channel: string, told: object): void {
    this.sent.push({ channel, told: structuredClone(told) });
    this.emit('sent', channel, told);
  }
  startDrag(item: { readonly file: string; readonly icon: string }): void {
    this.dragged.push(item);
  }
  setWindowOpenHandler(handler: (wanted: { readonly url: string }) => { action: 'deny' }): void {
    this.openHandler = handler;
  }
}

export class FakeWindow extends EventEmitter implements WindowPart {
  readonly options: BrowserWindowConstructorOptions;
  readonly webContents: FakeContents;
  shown = 0;

  constructor(options: BrowserWindowConstructorOptions, id: number) {
    super();
    this.options = options;
    this.webContents = new FakeContents(id);
  }
  async loadURL(address: string): Promise<void> {
    this.webContents.mainFrame.url = address;
    this.emit('ready-to-show');
  }
  show(): void {
    this.shown += 1;
  }
  focus(): void {}
  restore(): void {}
  isMinimized(): boolean {
    return false;
  }
}

type Handler = Parameters<IpcPart['handle']>[1];
type Listener = Parameters<IpcPart['on']>[1];

/** A utility process as Electron starts it, played by a forked node whose channel wears the parent port's shape. */
const parentPort = `data:text/javascript,${encodeURIComponent(`
  process.parentPort = {
    postMessage: (message) => process.send(message),
    on: (_event, take) => process.on('message', (data) => take({ data })),
  };`)}`;

/** Electron, as far as the desktop host knows it, with everything that happened to it on record. */
export function fakeElectron(options: { readonly onlyOne?: boolean; readonly packaged?: boolean } = {}) {
  const app = new EventEmitter();
  const session = new EventEmitter();
  const windows: FakeWindow[] = [];
  const handlers = new Map<string, Handler>();
  const listeners = new Map<string, Listener>();
  const record = {
    calls: [] as string[],
    schemes: [] as object[],
    menu: [] as MenuItemConstructorOptions[],
    notices: [] as { readonly title: string; readonly body: string }[],
    boxes: [] as MessageBoxOptions[],
    outside: [] as string[],
    shown: [] as string[],
    folder: undefined as string | undefined,
    saveTo: undefined as string | undefined,
    boxAnswer: 1,
    forked: 0,
    serve: undefined as ((request: Request) => Response) | undefined,
    grants: undefined as ((permission: string) => boolean) | undefined,
    checks: [] as (() => boolean)[],
    allowed: undefined as ((url: string) => boolean) | undefined,
  };
  class BrowserWindow extends FakeWindow {
    constructor(given: BrowserWindowConstructorOptions) {
      super(given, windows.length + 1);
      windows.push(this);
      app.emit('web-contents-created', { preventDefault: () => undefined }, this.webContents);
    }
  }
  class Notification extends EventEmitter implements NotificationPart {
    constructor(given: { title: string; body: string }) {
      super();
      record.notices.push(given);
    }
    show(): void {
      record.calls.push('notice shown');
    }
  }
  const parts: Parts = {
    app: Object.assign(app, {
      isPackaged: options.packaged ?? true,
      getVersion: () => '9.9.9',
      requestSingleInstanceLock: () => options.onlyOne ?? true,
      enableSandbox: () => void record.calls.push('sandbox'),
      whenReady: async () => void record.calls.push('ready'),
      setAppUserModelId: () => undefined,
      quit: () => {
        record.calls.push('quit');
        let prevented = false;
        app.emit('before-quit', { preventDefault: () => (prevented = true) });
        if (!prevented) app.emit('gone');
      },
      exit: () => undefined,
    }),
    BrowserWindow,
    dialog: {
      showOpenDialog: async () =>
        record.folder === undefined
          ? { canceled: true, filePaths: [] }
          : { canceled: false, filePaths: [record.folder] },
      showSaveDialog: async () => ({ canceled: record.saveTo === undefined, filePath: record.saveTo ?? '' }),
      showMessageBox: async (box) => {
        record.boxes.push(box);
        return { response: record.boxAnswer };
      },
    },
    ipcMain: {
      handle: (channel, handler) => void handlers.set(channel, handler),
      on: (channel, listener) => listeners.set(channel, listener),
    },
    Menu: {
      buildFromTemplate: (template) => template,
      setApplicationMenu: (menu) => {
        record.menu = Array.isArray(menu) ? menu : [];
      },
    },
    Notification,
    nativeTheme: { shouldUseDarkColors: false },
    protocol: {
      registerSchemesAsPrivileged: (schemes) => {
        record.calls.push('schemes');
        record.schemes.push(...schemes);
      },
      handle: (_scheme, serve) => {
        record.serve = serve;
      },
    },
    session: () =>
      Object.assign(session, {
        setPermissionRequestHandler: (handler: (c: ContentsPart, p: string, a: (g: boolean) => void) => void) => {
          record.grants = (permission) => {
            let granted = true;
            handler(new FakeContents(0), permission, (answer) => (granted = answer));
            return granted;
          };
        },
        setPermissionCheckHandler: (handler: () => boolean) => void record.checks.push(handler),
        setDevicePermissionHandler: (handler: () => boolean) => void record.checks.push(handler),
        webRequest: {
          onBeforeRequest: (listener: (w: { url: string }, a: (r: { cancel?: boolean }) => void) => void) => {
            record.allowed = (url) => {
              let cancelled: boolean | undefined;
              listener({ url }, ({ cancel }) => (cancelled = cancel));
              return cancelled === false;
            };
          },
        },
      }),
    shell: {
      showItemInFolder: (path) => void record.shown.push(path),
      openExternal: async (address) => void record.outside.push(address),
    },
    utilityProcess: {
      fork: (program, words, { execArgv }) => {
        record.forked += 1;
        const child = fork(program, words, {
          execArgv: [...execArgv, '--import', parentPort],
          stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
        });
        return Object.assign(child, {
          postMessage: (message: object) => void child.send(message),
        });
      },
    },
  };
  const emitter = (contents: FakeContents): SenderEvent => ({ sender: contents, senderFrame: contents.mainFrame });
  /** Sends as the page of a window would, or as whatever `event` says. */
  const invoke = async (window: FakeWindow, channel: string, words: unknown[], event?: SenderEvent) =>
    handlers.get(channel)?.(event ?? emitter(window.webContents), ...structuredClone(words));
  return {
    parts,
    app,
    session,
    windows,
    record,
    invoke,
    say: (window: FakeWindow, channel: string, words: unknown[], event?: SenderEvent) =>
      listeners.get(channel)?.(event ?? emitter(window.webContents), ...words),
    /** The preload script's side of a window; `paths` tells where a dropped file lies. */
    preloadOf: (window: FakeWindow, paths: ReadonlyMap<File, string> = new Map()): PreloadParts => ({
      ipcRenderer: {
        invoke: (channel, ...words) => invoke(window, channel, words),
        send: (channel, ...words) => void listeners.get(channel)?.(emitter(window.webContents), ...words),
        on: (channel, listener) =>
          window.webContents.on('sent', (to: string, told) => {
            if (to === channel) listener({}, told);
          }),
        removeListener: () => window.webContents.removeAllListeners('sent'),
      },
      webUtils: { getPathForFile: (file) => paths.get(file) ?? '' },
    }),
  };
}

export type FakeElectron = ReturnType<typeof fakeElectron>;
