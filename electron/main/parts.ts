import type {
  BrowserWindowConstructorOptions,
  MenuItemConstructorOptions,
  MessageBoxOptions,
  OpenDialogOptions,
  SaveDialogOptions,
} from 'electron';

/**
 * As much of Electron as the desktop host uses, so that it runs in tests without it. `main.ts` gives the real module,
 * which the compiler checks against this; what is handed over as data has Electron's own types.
 */
export interface Preventable {
  preventDefault(): void;
}

export interface FramePart {
  readonly url: string;
}

export interface ContentsPart {
  readonly id: number;
  readonly mainFrame: FramePart;
  getURL(): string;
  isDestroyed(): boolean;
  reload(): void;
  send(channel: string, told: object): void;
  startDrag(item: { readonly file: string; readonly icon: string }): void;
  setWindowOpenHandler(handler: (wanted: { readonly url: string }) => { action: 'deny' }): void;
  on(event: 'will-navigate', listener: (event: Preventable & { readonly url: string }) => void): unknown;
  on(event: 'will-frame-navigate', listener: (event: Preventable & { readonly url: string }) => void): unknown;
  on(event: 'will-attach-webview', listener: (event: Preventable) => void): unknown;
  on(event: 'render-process-gone', listener: () => void): unknown;
  on(event: 'destroyed', listener: () => void): unknown;
}

export interface WindowPart {
  readonly webContents: ContentsPart;
  loadURL(address: string): Promise<void>;
  show(): void;
  focus(): void;
  restore(): void;
  isMinimized(): boolean;
  once(event: 'ready-to-show', listener: () => void): unknown;
  on(event: 'closed', listener: () => void): unknown;
}

export interface AppPart {
  readonly isPackaged: boolean;
  getVersion(): string;
  requestSingleInstanceLock(): boolean;
  enableSandbox(): void;
  whenReady(): Promise<void>;
  setAppUserModelId(id: string): void;
  quit(): void;
  exit(code?: number): void;
  on(event: 'second-instance', listener: () => void): unknown;
  on(event: 'window-all-closed', listener: () => void): unknown;
  on(event: 'activate', listener: () => void): unknown;
  on(event: 'before-quit', listener: (event: Preventable) => void): unknown;
  on(event: 'web-contents-created', listener: (event: Preventable, contents: ContentsPart) => void): unknown;
}

export interface SenderEvent {
  readonly sender: ContentsPart;
  readonly senderFrame: FramePart | null;
}

export interface IpcPart {
  handle(channel: string, listener: (event: SenderEvent, ...words: unknown[]) => Promise<unknown>): void;
  on(channel: string, listener: (event: SenderEvent, ...words: unknown[]) => void): unknown;
}

export interface SessionPart {
  setPermissionRequestHandler(
    handler: (contents: ContentsPart, permission: string, answer: (granted: boolean) => void) => void,
  ): void;
  setPermissionCheckHandler(handler: () => boolean): void;
  setDevicePermissionHandler(handler: () => boolean): void;
  readonly webRequest: {
    onBeforeRequest(
      listener: (wanted: { readonly url: string }, answer: (response: { cancel?: boolean }) => void) => void,
    ): void;
  };
  on(event: 'will-download', listener: (event: Preventable, item: { getURL(): string }) => void): unknown;
}

export interface ProtocolPart {
  registerSchemesAsPrivileged(
    schemes: {
      scheme: string;
      privileges: { standard: boolean; secure: boolean; supportFetchAPI: boolean; stream: boolean };
    }[],
  ): void;
  handle(scheme: string, handler: (request: Request) => Response): void;
}

export interface DialogPart {
  showOpenDialog(options: OpenDialogOptions): Promise<{ readonly canceled: boolean; readonly filePaths: string[] }>;
  showSaveDialog(options: SaveDialogOptions): Promise<{ readonly canceled: boolean; readonly filePath: string }>;
  showMessageBox(options: MessageBoxOptions): Promise<{ readonly response: number }>;
}

export interface NotificationPart {
  on(event: 'click', listener: () => void): unknown;
  show(): void;
}

export interface UtilityChild {
  readonly pid?: number | undefined;
  readonly stderr: { on(event: 'data', listener: (part: Buffer) => void): unknown } | null;
  postMessage(message: object): void;
  kill(): boolean;
  on(event: 'message', listener: (message: unknown) => void): unknown;
  once(event: 'exit', listener: () => void): unknown;
}

export interface UtilityPart {
  fork(
    program: string,
    words: string[],
    options: { execArgv: string[]; stdio: ('ignore' | 'pipe')[]; serviceName: string },
  ): UtilityChild;
}

export interface Parts {
  readonly app: AppPart;
  readonly BrowserWindow: new (options: BrowserWindowConstructorOptions) => WindowPart;
  readonly dialog: DialogPart;
  readonly ipcMain: IpcPart;
  readonly Menu: {
    buildFromTemplate(template: MenuItemConstructorOptions[]): object;
    setApplicationMenu(menu: object | null): void;
  };
  readonly nativeTheme: { readonly shouldUseDarkColors: boolean };
  readonly Notification: new (options: { title: string; body: string }) => NotificationPart;
  readonly protocol: ProtocolPart;
  /** The default session: there is no other. */
  readonly session: () => SessionPart;
  readonly shell: { showItemInFolder(path: string): void; openExternal(address: string): Promise<void> };
  readonly utilityProcess: UtilityPart;
}
