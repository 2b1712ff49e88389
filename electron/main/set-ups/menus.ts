import { dirname } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import type { Desktop } from '../desktop-model.ts';

interface GoItem {
  readonly label: string;
  readonly screen: string;
  readonly accelerator?: string;
}

const goItems: readonly GoItem[] = [
  { label: 'Today', screen: 'today', accelerator: 'CmdOrCtrl+1' },
  { label: 'The Way', screen: 'way', accelerator: 'CmdOrCtrl+2' },
  { label: 'Papers', screen: 'papers', accelerator: 'CmdOrCtrl+3' },
  { label: 'On the Table', screen: 'table', accelerator: 'CmdOrCtrl+4' },
  { label: 'Lot', screen: 'lot', accelerator: 'CmdOrCtrl+5' },
  { label: 'With the Offices', screen: 'offices', accelerator: 'CmdOrCtrl+6' },
  { label: 'Local Practice', screen: 'practice', accelerator: 'CmdOrCtrl+7' },
  { label: 'What Was Done', screen: 'history', accelerator: 'CmdOrCtrl+8' },
  { label: 'Inspections', screen: 'inspections', accelerator: 'CmdOrCtrl+9' },
];

/** The lot a window shows stands in its address: `#/<lot>/<screen>`. */
export function placeIn(address: string, screen: string): string {
  const lot = URL.parse(address)?.hash.split('/')[1] ?? '';
  return lot === '' ? '#/' : `#/${lot}/${screen}`;
}

export function menuTemplate(
  { host, windows }: Desktop,
  mac = process.platform === 'darwin',
): MenuItemConstructorOptions[] {
  const goTo =
    (to: (address: string) => string): NonNullable<MenuItemConstructorOptions['click']> =>
    (_item, focused) => {
      const contents: unknown = focused !== undefined && 'webContents' in focused ? focused.webContents : undefined;
      const window = windows.front(contents);
      if (window === undefined) return windows.show();
      windows.tellOne(window, { event: 'go', told: { to: to(window.webContents.getURL()) } });
    };
  const go = goItems.map(
    ({ label, screen, accelerator }): MenuItemConstructorOptions => ({
      label,
      ...(accelerator === undefined ? {} : { accelerator }),
      click: goTo((address) => placeIn(address, screen)),
    }),
  );
  const before = host.recents.list().filter(({ gone }) => !gone);
  const openedBefore = before.slice(0, 10).map(
    ({ key, title, path }): MenuItemConstructorOptions => ({
      // "&" would underline the next letter.
      label: `${title}, in ${dirname(path)}`.replaceAll('&', '&&'),
      click: goTo(() => `#/${encodeURIComponent(key)}/today`),
    }),
  );
  return [
    ...(mac ? [{ role: 'appMenu' } as const] : []),
    {
      label: 'Lot',
      submenu: [
        { label: 'Lots …', accelerator: 'CmdOrCtrl+O', click: goTo(() => '#/') },
        { label: 'Opened Before', enabled: openedBefore.length > 0, submenu: openedBefore },
        { label: 'New Window', accelerator: 'CmdOrCtrl+Shift+N', click: () => void windows.open() },
        { type: 'separator' },
        { role: 'close' },
        ...(mac ? [] : [{ role: 'quit' } as const]),
      ],
    },
    { role: 'editMenu' },
    { label: 'Go', submenu: go },
    {
      label: 'View',
      submenu: [
        { role: 'resetZoom' },
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { type: 'separator' },
        { role: 'togglefullscreen' },
      ],
    },
    { role: 'windowMenu' },
  ];
}

export function menus(desktop: Desktop): void {
  const { Menu } = desktop.parts;
  const show = (): void => Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(desktop)));
  show();
  desktop.host.onOpened(show);
}
