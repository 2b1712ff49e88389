import { windowAddress } from '../channels.ts';
import type { Desktop } from '../desktop-model.ts';

/** No page but our own, in no frame; nothing opens a window or a web view by itself. */
export function keepFromStraying({ parts }: Desktop): void {
  parts.app.on('web-contents-created', (_event, contents) => {
    const stay = (event: { preventDefault(): void; readonly url: string }): void => {
      if (!event.url.startsWith(windowAddress)) event.preventDefault();
    };
    contents.on('will-navigate', stay);
    contents.on('will-frame-navigate', stay);
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}

/** A source on the web opens in the person's own browser, when they say so with its whole address before them. */
export function askBeforeLeaving({ parts }: Desktop): void {
  const { app, dialog, shell } = parts;
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(({ url }) => {
      if (URL.parse(url)?.protocol === 'https:') {
        void dialog
          .showMessageBox({
            type: 'question',
            message: 'Open this page in your browser?',
            detail: url,
            buttons: ['Open', 'Stay here'],
            defaultId: 1,
            cancelId: 1,
          })
          .then(({ response }) => (response === 0 ? shell.openExternal(url) : undefined));
      }
      return { action: 'deny' };
    });
  });
}

/** Camera, place, notices, devices: the window needs none of them. It saves what the desk gave a ticket for. */
export function denyPermissions({ parts }: Desktop): void {
  const session = parts.session();
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.on('will-download', (event, item) => {
    if (!item.getURL().startsWith(`${windowAddress}bytes/`)) event.preventDefault();
  });
}

const own = ['lotfile:', 'blob:', 'data:'];

/** Nothing is ever fetched from anywhere but our own protocol. */
export function refuseRemote({ parts }: Desktop): void {
  const allowed = parts.app.isPackaged ? own : [...own, 'devtools:'];
  parts.session().webRequest.onBeforeRequest(({ url }, answer) => {
    answer({ cancel: !allowed.includes(URL.parse(url)?.protocol ?? '') });
  });
}
