import type { Desktop } from '../desktop-model.ts';

/** One program at a time; lots are closed before it ends. */
export function endings({ parts, host, handedOver, windows }: Desktop): void {
  const { app } = parts;
  app.on('second-instance', () => windows.show());
  app.on('activate', () => {
    if (windows.size === 0) windows.show();
  });
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  windows.onGone((window) => void host.windowGone(window));
  let closed = false;
  app.on('before-quit', (event) => {
    if (closed) return;
    event.preventDefault();
    void host.close().finally(() => {
      closed = true;
      handedOver.clear();
      app.quit();
    });
  });
}
