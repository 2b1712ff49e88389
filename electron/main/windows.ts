import type { WindowEvent } from '../../core/desk/door.ts';
import { channels, windowAddress } from './channels.ts';
import type { Parts, SenderEvent, WindowPart } from './parts.ts';

/** The page's colour before it has drawn itself. */
const paper = { light: '#FBF9F2', dark: '#1A1E21' } as const;

/** The open windows. */
export class Windows {
  readonly #parts: Parts;
  readonly #preload: string;
  readonly #open = new Map<number, WindowPart>();
  readonly #onGone = new Set<(window: string) => void>();

  constructor(parts: Parts, preload: string) {
    this.#parts = parts;
    this.#preload = preload;
  }

  /** Opens one more; every lock that Electron has is on. */
  async open(): Promise<void> {
    const { BrowserWindow, app, nativeTheme } = this.#parts;
    const window = new BrowserWindow({
      title: 'Lotfile',
      width: 1280,
      height: 820,
      minWidth: 640,
      minHeight: 480,
      show: false,
      backgroundColor: nativeTheme.shouldUseDarkColors ? paper.dark : paper.light,
      webPreferences: {
        preload: this.#preload,
        sandbox: true,
        contextIsolation: true,
        nodeIntegration: false,
        nodeIntegrationInWorker: false,
        nodeIntegrationInSubFrames: false,
        webSecurity: true,
        allowRunningInsecureContent: false,
        experimentalFeatures: false,
        webviewTag: false,
        navigateOnDragDrop: false,
        // Its dictionaries would be fetched from afar.
        spellcheck: false,
        devTools: !app.isPackaged,
      },
    });
    const { id } = window.webContents;
    this.#open.set(id, window);
    window.once('ready-to-show', () => window.show());
    window.webContents.on('render-process-gone', () => {
      if (!window.webContents.isDestroyed()) window.webContents.reload();
    });
    window.on('closed', () => {
      this.#open.delete(id);
      for (const listener of this.#onGone) listener(String(id));
    });
    await window.loadURL(windowAddress);
  }

  get size(): number {
    return this.#open.size;
  }

  /** Brings the newest window to the front, or opens one where there is none. */
  show(): void {
    const window = [...this.#open.values()].at(-1);
    if (window === undefined) {
      void this.open();
      return;
    }
    if (window.isMinimized()) window.restore();
    window.show();
    window.focus();
  }

  tell(event: WindowEvent): void {
    for (const { webContents } of this.#open.values()) {
      if (!webContents.isDestroyed()) webContents.send(channels.told, event);
    }
  }

  /** Tells one window only. */
  tellOne(window: WindowPart, event: WindowEvent): void {
    window.webContents.send(channels.told, event);
  }

  /** @param window told by its name: the number Electron gave it. */
  onGone(listener: (window: string) => void): void {
    this.#onGone.add(listener);
  }

  /** The window a message came from; nothing where it came from anything but the main page of one of ours. */
  senderOf({ sender, senderFrame }: SenderEvent): WindowPart | undefined {
    const window = this.#open.get(sender.id);
    if (window === undefined || senderFrame === null || senderFrame !== sender.mainFrame) return undefined;
    const url = URL.parse(senderFrame.url);
    return url?.protocol === 'lotfile:' && url.host === 'window' ? window : undefined;
  }

  /** The window whose page this is, else the newest. */
  front(contents: unknown): WindowPart | undefined {
    const windows = [...this.#open.values()];
    return windows.find(({ webContents }) => webContents === contents) ?? windows.at(-1);
  }
}
