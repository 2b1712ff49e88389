import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import type { WindowEvent } from '../../core/desk/door.ts';
import { channels } from '../../electron/main/channels.ts';
import { startDesktop } from '../../electron/main/desktop.ts';
import type { Desktop } from '../../electron/main/desktop-model.ts';
import { Notices } from '../../electron/main/set-ups/notices.ts';
import { desktopPort } from '../../electron/preload/desktop-port.ts';
import { writePdf } from '../desk/small-lot.ts';
import { type FakeElectron, type FakeWindow, fakeElectron } from './fake-electron.ts';
import { answered, kitDay, scratch } from './hosts-kit.ts';

interface Started extends AsyncDisposable {
  readonly root: string;
  readonly electron: FakeElectron;
  readonly desktop: Desktop;
  readonly window: FakeWindow;
}

async function start(options: { readonly packaged?: boolean } = {}): Promise<Started> {
  const { root, [Symbol.dispose]: clear } = scratch();
  const electron = fakeElectron(options);
  const window = join(root, 'window');
  mkdirSync(join(window, 'assets'), { recursive: true });
  writeFileSync(join(window, 'index.html'), '<!doctype html><meta property="csp-nonce" content="__NONCE__">');
  writeFileSync(join(window, 'assets', 'a-1.js'), 'export {};\n');
  writeFileSync(join(root, 'beside.txt'), 'not for anybody');
  const desktop = await startDesktop({
    parts: electron.parts,
    window,
    preload: '/preload.cjs',
    places: { config: join(root, 'config'), lots: join(root, 'lots') },
    today: () => kitDay,
  });
  const [first] = electron.windows;
  if (desktop === undefined || first === undefined) throw new Error('The desktop host did not start.');
  return {
    root,
    electron,
    desktop,
    window: first,
    [Symbol.asyncDispose]: async () => {
      await desktop.host.close();
      clear();
    },
  };
}

function served({ electron }: Started, path: string, headers: Record<string, string> = {}, method = 'GET'): Response {
  const answer = electron.record.serve?.(new Request(`lotfile://window${path}`, { headers, method }));
  if (answer === undefined) throw new Error('Nothing is served.');
  return answer;
}

describe('the desktop host', () => {
  it('runs once: a second start ends at once, and brings the first one’s window to the front', async () => {
    const second = fakeElectron({ onlyOne: false });
    expect(await startDesktop({ parts: second.parts, window: '', preload: '' })).toBeUndefined();
    expect([second.record.calls, second.windows]).toEqual([['quit'], []]);
    await using first = await start();
    const before = first.window.shown;
    first.electron.app.emit('second-instance');
    expect(first.window.shown).toBe(before + 1);
  });

  it('declares its protocol and the sandbox before Electron is ready, and opens a window with every lock on', async () => {
    await using at = await start();
    const { electron, window } = at;
    expect(electron.record.calls.slice(0, 3)).toEqual(['sandbox', 'schemes', 'ready']);
    expect(electron.record.schemes).toEqual([
      { scheme: 'lotfile', privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
    ]);
    // Electron's own security checklist (electronjs.org/docs/latest/tutorial/security), as far as it is a switch.
    expect(window.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      devTools: false,
    });
    expect(window.webContents.getURL()).toBe('lotfile://window/');
  });

  it('lets no page stray, opens no window, downloads nothing and asks before the browser shows a source', async () => {
    await using at = await start();
    const { electron, window } = at;
    const prevented = (event: string, url: string): boolean => {
      let stopped = false;
      window.webContents.emit(event, { url, preventDefault: () => (stopped = true) });
      return stopped;
    };
    for (const event of ['will-navigate', 'will-frame-navigate']) {
      expect(prevented(event, 'https://lot.example/')).toBe(true);
      expect(prevented(event, 'file:///etc/passwd')).toBe(true);
      expect(prevented(event, 'lotfile://other/')).toBe(true);
      expect(prevented(event, 'lotfile://window/#/')).toBe(false);
    }
    expect(prevented('will-attach-webview', '')).toBe(true);
    const saved = (url: string): boolean => {
      let stopped = false;
      electron.session.emit('will-download', { preventDefault: () => (stopped = true) }, { getURL: () => url });
      return !stopped;
    };
    expect(saved('https://lot.example/x.exe')).toBe(false);
    expect(saved('lotfile://other/bytes/x')).toBe(false);
    expect(saved('lotfile://window/bytes/t-1?save')).toBe(true);
    const open = window.webContents.openHandler;
    for (const url of ['file:///etc/passwd', 'http://lot.example', 'javascript:alert(1)', 'smb://lot.example/x']) {
      expect(open?.({ url })).toEqual({ action: 'deny' });
    }
    expect(electron.record.boxes).toEqual([]);
    expect(open?.({ url: 'https://county.example/rule' })).toEqual({ action: 'deny' });
    await Promise.resolve();
    expect(electron.record.boxes[0]).toMatchObject({ detail: 'https://county.example/rule', defaultId: 1 });
    expect(electron.record.outside).toEqual([]);
    electron.record.boxAnswer = 0;
    open?.({ url: 'https://county.example/rule' });
    await new Promise((resolve) => setImmediate(resolve));
    expect(electron.record.outside).toEqual(['https://county.example/rule']);
  });

  it('grants no permission and lets nothing be fetched from afar', async () => {
    await using at = await start();
    const { electron } = at;
    for (const permission of ['media', 'geolocation', 'notifications', 'openExternal', 'fileSystem']) {
      expect(electron.record.grants?.(permission)).toBe(false);
    }
    expect(electron.record.checks.map((check) => check())).toEqual([false, false]);
    const { allowed } = electron.record;
    expect(allowed?.('lotfile://window/assets/a-1.js')).toBe(true);
    for (const url of [
      'https://lot.example/x.js',
      'http://127.0.0.1:1/',
      'file:///etc/passwd',
      'devtools://x',
      'ws://x',
    ]) {
      expect([url, allowed?.(url)]).toEqual([url, false]);
    }
  });

  it('serves the window with the same strict policy, and bytes in ranges, and nothing else', async () => {
    await using at = await start();
    const page = served(at, '/');
    const policy = page.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    const nonce = /'nonce-([\w-]+)'/.exec(policy)?.[1] ?? 'none';
    expect(await page.text()).toContain(`content="${nonce}"`);
    expect(served(at, '/assets/a-1.js').headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    const path = await writePdf(join(at.root, 'deed.pdf'), ['Deed']);
    const { ticket } = at.desktop.host.take(path, 'deed.pdf', 1);
    const part = served(at, `/bytes/${ticket}`, { range: 'bytes=0-4' });
    expect([part.status, await part.text()]).toEqual([206, '%PDF-']);
    const whole = Buffer.from(await served(at, `/bytes/${ticket}`).arrayBuffer());
    expect(whole.equals(readFileSync(path))).toBe(true);
    for (const way of [
      '/../beside.txt',
      '/..%2fbeside.txt',
      '/%2e%2e/beside.txt',
      '/index.html',
      '/bytes/..%2fbeside.txt',
    ]) {
      expect([way, served(at, way).status]).toEqual([way, 404]);
    }
    expect(served(at, '/', {}, 'POST').status).toBe(404);
    const strange = at.electron.record.serve?.(new Request('lotfile://other/'));
    expect(strange?.status).toBe(404);
    const html = at.desktop.host.take(join(at.root, 'beside.txt'), 'a.html', 1);
    expect(served(at, `/bytes/${html.ticket}`).headers.get('content-type')).toBe('application/octet-stream');
  });

  it('answers the window’s own page and nobody else: no frame, no other page, no other window', async () => {
    await using at = await start();
    const { electron, window, root } = at;
    const { webContents } = window;
    const elsewhere = { url: 'https://lot.example/' };
    const strangers = [
      { sender: webContents, senderFrame: null },
      // A frame inside our page.
      { sender: webContents, senderFrame: { url: 'lotfile://window/' } },
      { sender: Object.assign(Object.create(webContents), { id: 99 }), senderFrame: webContents.mainFrame },
      { sender: Object.assign(Object.create(webContents), { mainFrame: elsewhere }), senderFrame: elsewhere },
    ];
    for (const event of strangers) {
      for (const channel of [channels.ask, channels.act, channels.takeFile, channels.takeBytes]) {
        const reply = await electron.invoke(window, channel, ['make-folder', { title: 'Planted' }], event);
        expect(reply).toMatchObject({ ok: false, error: { message: 'This was not asked by the Lotfile window.' } });
      }
    }
    const own = await electron.invoke(window, channels.act, ['make-folder', { title: 'Mine' }]);
    expect(own).toMatchObject({ ok: true });
    for (const words of [[], [7, {}], [{}, null], ['keep', { papers: [{ files: [root] }] }, { lot: 'x' }]]) {
      expect(await electron.invoke(window, channels.ask, words)).toMatchObject({
        ok: false,
        error: { code: 'wrong use' },
      });
    }
  });

  it('takes dropped and pasted files through the preload script, keeps them in workers of its own, and drags one out', async () => {
    await using at = await start();
    const { electron, window, root, desktop } = at;
    const events: WindowEvent[] = [];
    const path = await writePdf(join(root, 'Deed of Hạnh.pdf'), ['Deed']);
    const dropped = new File([readFileSync(path)], 'whatever the page says.pdf');
    const pasted = new File([readFileSync(path), '\n% pasted\n'], '../pasted.pdf');
    const folder = new File([], 'folder');
    const paths = new Map([
      [dropped, path],
      [folder, root],
    ]);
    const port = desktopPort(electron.preloadOf(window, paths));
    const off = port.on((event) => void events.push(event));
    const [first, second, third] = await port.offer([dropped, pasted, folder]);
    expect(first).toMatchObject({ ok: true, answer: { name: 'Deed of Hạnh.pdf' } });
    expect(second).toMatchObject({ ok: true, answer: { name: 'pasted.pdf', bytes: pasted.size } });
    expect(third).toMatchObject({ ok: false, error: { code: 'file refused' } });
    const made = answered(await port.act('make-folder', { title: 'Ridge' }));
    const { lot } = answered(await port.ask('new-lot', { folder: made.folder, title: 'Ridge' }, {}));
    const files = [first, second].flatMap((reply) => (reply?.ok === true ? [reply.answer.ticket] : []));
    const papers = files.map((ticket) => ({ files: [ticket], kind: 'deed' }));
    const { kept, refused } = answered(await port.ask('keep', { papers }, { lot, id: 'k1' }));
    expect([kept.length, refused]).toEqual([2, []]);
    expect(electron.record.forked).toBeGreaterThan(0);
    expect(events).toContainEqual({ event: 'progress', told: expect.objectContaining({ request: 'keep', id: 'k1' }) });
    off();

    // What was pasted is let go once it is kept; pasted anew, it waits and can be dragged.
    const [waiting] = await port.offer([pasted]);
    port.dragOut(files[0] ?? '');
    port.dragOut(files[1] ?? '');
    port.dragOut(waiting?.ok === true ? waiting.answer.ticket : '');
    port.dragOut(join(root, 'beside.txt'));
    const { dragged } = window.webContents;
    expect(dragged.map(({ file }) => basename(file))).toEqual(['Deed of Hạnh.pdf', 'pasted.pdf']);
    expect(dragged[0]?.file).toBe(path);
    expect(readFileSync(dragged[1]?.file ?? '').includes('% pasted')).toBe(true);
    expect(
      readFileSync(dragged[0]?.icon ?? '')
        .subarray(1, 4)
        .toString(),
    ).toBe('PNG');
    expect(port.address('t-1', 'save')).toBe('/bytes/t-1?save');
    await desktop.host.close();
  });

  it('opens a lot by the system’s dialog, lists it, saves a copy and shows a file in its folder', async () => {
    await using at = await start();
    const { electron, window, root, desktop } = at;
    const port = desktopPort(electron.preloadOf(window));
    expect(answered(await port.act('choose-lot', {}))).toEqual({});
    {
      await using other = openDesk({ program: 'before' });
      await other.ask('new-lot', { folder: other.tickets.offer(join(root, 'old lot')), title: 'Old lot' });
    }
    electron.record.folder = join(root, 'old lot');
    const { folder = '' } = answered(await port.act('choose-lot', {}));
    answered(await port.ask('open-lot', { folder }, {}));
    const card = answered(await port.act('host', {}));
    expect(card).toMatchObject({ version: '9.9.9', dialogs: true, lots: [{ title: 'Old lot' }] });
    const path = await writePdf(join(root, 'packet.pdf'), ['Packet']);
    const { ticket } = desktop.host.take(path, 'packet.pdf', 1);
    electron.record.saveTo = join(root, 'copy.pdf');
    expect(answered(await port.act('save', { ticket }))).toMatchObject({ saved: true });
    expect(answered(await port.act('show-file', { ticket }))).toEqual({ shown: true });
    expect(electron.record.shown).toEqual([path]);
  });

  it('closes every lot before it ends, and lets go of a lot when its last window is closed', async () => {
    await using at = await start();
    const { electron, window, desktop } = at;
    const port = desktopPort(electron.preloadOf(window));
    const made = answered(await port.act('make-folder', { title: 'Ridge' }));
    const { lot } = answered(await port.ask('new-lot', { folder: made.folder, title: 'Ridge' }, {}));
    window.emit('closed');
    await new Promise((resolve) => setImmediate(resolve));
    await expect(desktop.host.desk.ask('read-lot', {}, { lot })).rejects.toThrow('No lot is open here.');
    await desktop.windows.open();
    const again = electron.windows[1];
    if (again === undefined) throw new Error('No window opened.');
    const { lot: reopened } = answered(
      await desktopPort(electron.preloadOf(again)).ask('open-lot', { folder: made.folder }, {}),
    );
    const gone = new Promise((resolve) => electron.app.once('gone', resolve));
    electron.parts.app.quit();
    await gone;
    await expect(desktop.host.desk.ask('read-lot', {}, { lot: reopened })).rejects.toThrow('No lot is open here.');
    await using other = openDesk({ program: 'after' });
    await other.ask('open-lot', { folder: other.tickets.offer(join(at.root, 'lots', 'ridge')) });
  });

  it('leads the window in front from the menu to a screen of the lot it shows', async () => {
    await using at = await start();
    const { electron, window, desktop, root } = at;
    window.webContents.mainFrame.url = 'lotfile://window/#/abc/papers/x';
    const folder = desktop.host.folderTicket(join(root, 'lots', 'ridge'));
    answered(await desktop.host.ask('new-lot', { folder, title: 'Ridge & Hollow' }, {}));
    const within = ({ submenu }: MenuItemConstructorOptions): readonly MenuItemConstructorOptions[] =>
      Array.isArray(submenu) ? submenu.flatMap((item) => [item, ...within(item)]) : [];
    const items = electron.record.menu.flatMap(within);
    const click = (label: string): void => {
      const item: MenuItemConstructorOptions | undefined = items.find((each) => each.label?.startsWith(label));
      Reflect.apply(item?.click ?? (() => undefined), undefined, [{}, window, {}]);
    };
    click('The Way');
    click('Lots …');
    click('Ridge && Hollow, in ');
    expect(window.webContents.sent.map(({ told }) => told)).toEqual([
      { event: 'go', told: { to: '#/abc/way' } },
      { event: 'go', told: { to: '#/' } },
      { event: 'go', told: { to: `#/${desktop.host.recents.list()[0]?.key}/today` } },
    ]);
    click('New Window');
    await Promise.resolve();
    expect(electron.windows).toHaveLength(2);
    const accelerators = items.flatMap(({ accelerator }) => (accelerator === undefined ? [] : [accelerator]));
    expect(new Set(accelerators).size).toBe(accelerators.length);
  });

  it('gives one notice of what lapses, once, and none for the sample', async () => {
    await using at = await start();
    const { electron, desktop, root } = at;
    const { host } = desktop;
    const folder = host.folderTicket(join(root, 'lots', 'ridge'));
    const { lot } = await host.desk.ask('new-lot', { folder, title: 'Ridge' });
    for (const [question, answer] of [
      ['sewage', 'septic'],
      ['lender', 'yes'],
    ] as const) {
      await host.desk.ask('answer', { question, answer }, { lot });
    }
    const paper = { files: [], physicalOnly: true, kind: 'driveway-permit' };
    await host.desk.ask('keep', { papers: [{ ...paper, issued: '2025-04-20', goodThrough: '2026-04-20' }] }, { lot });
    const { amiss } = await host.desk.ask('today', {}, { lot });
    expect(amiss).toMatchObject([{ kind: 'driveway-permit', weight: 'questioned', by: '2026-04-20' }]);
    await new Notices(desktop).opened({ lot, title: 'Ridge', sample: true });
    expect(electron.record.notices).toEqual([]);
    await new Notices(desktop).opened({ lot, title: 'Ridge', sample: false });
    await new Notices(desktop).opened({ lot, title: 'Ridge', sample: false });
    expect(electron.record.notices).toHaveLength(1);
    expect(electron.record.notices[0]).toMatchObject({
      title: 'Ridge',
      body: expect.stringMatching(/driveway permit/i),
    });
  });

  it('loads its page again where the page’s process broke down', async () => {
    await using at = await start();
    const { window } = at;
    window.webContents.emit('render-process-gone');
    expect(window.webContents.reloads).toBe(1);
  });
});
