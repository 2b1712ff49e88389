import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sparticuz from '@sparticuz/chromium';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { asDay, type Day } from '../../core/desk/door.ts';
import { WindowDesk } from '../../electron/host/window-desk.ts';
import { type LoopbackHost, openLoopback } from '../../electron/loopback/loopback-host.ts';

const project = join(import.meta.dirname, '..', '..');
export const builtWindow = join(project, 'dist', 'renderer');
/** Where the sample lot is made once; each test works on a copy. */
export const sampleCache = join(project, 'node_modules', '.cache', 'window-tests');
/** The day the sample's story stands at. */
export const sampleDay = asDay('2026-04-14');
const version = '0.0.0-test';

export interface WindowOptions {
  /** Start with a copy of the sample lot already laid out (made by the set-up). */
  readonly sample?: boolean | undefined;
  /** The host's today; the sample's own day unless said. */
  readonly today?: Day | undefined;
  readonly width?: number | undefined;
  readonly height?: number | undefined;
  readonly dark?: boolean | undefined;
  /** Bytes a file may have. */
  readonly uploadLimit?: number | undefined;
  /** A browser that no other test looks at or loads: for measuring. */
  readonly ownBrowser?: boolean | undefined;
}

/** The host of the sample cache; the set-up makes the sample with it, once for all test files. */
export function cacheHost(): WindowDesk {
  const places = { config: sampleCache, lots: join(sampleCache, 'lots') };
  return new WindowDesk({ program: 'window tests', version, places, today: () => sampleDay });
}

/** A browser of its own. @param port where others may join it; nobody may unless said. */
export async function launch(port?: number): Promise<Browser> {
  // Only this one switch: the package's own list turns web security off.
  const args = ['--no-sandbox', ...(port === undefined ? [] : [`--remote-debugging-port=${port}`])];
  return chromium.launch({ executablePath: await sparticuz.executablePath(), args });
}

/** Where the set-up's browser listens; test files join it instead of starting one each. */
export const sharedBrowser = 'LOTFILE_TEST_BROWSER';

/**
 * The browser all test files share, or one of its own where there is none to share (or it has gone). Closing a joined
 * one only parts from it; what a test makes there is its context, with its own cookies and storage.
 */
async function joinOrLaunch(): Promise<Browser> {
  const address = process.env[sharedBrowser];
  if (address === undefined) return launch();
  return chromium.connectOverCDP(address).catch(() => launch());
}

/** A real browser on a real loopback host, with folders of its own; disposed of with everything it made. */
export class OpenWindow {
  readonly folder = mkdtempSync(join(tmpdir(), 'lotfile-window-'));
  readonly places = { config: join(this.folder, 'config'), lots: join(this.folder, 'lots') };
  readonly #options: WindowOptions;
  #host: WindowDesk;
  #loopback: LoopbackHost | undefined;
  #browser: Browser | undefined;
  #context: BrowserContext | undefined;
  #page: Page | undefined;

  constructor(options: WindowOptions) {
    this.#options = options;
    mkdirSync(this.places.config, { recursive: true });
    if (options.sample === true) {
      cpSync(join(sampleCache, 'sample'), join(this.places.config, 'sample'), { recursive: true });
    }
    this.#host = this.#newHost();
  }

  #newHost(): WindowDesk {
    const today = this.#options.today ?? sampleDay;
    return new WindowDesk({ program: 'window tests', version, places: this.places, today: () => today });
  }

  async begin(): Promise<this> {
    const { width = 1280, height = 800, dark = false } = this.#options;
    await this.#serve();
    this.#browser = await (this.#options.ownBrowser === true ? launch() : joinOrLaunch());
    this.#context = await this.#browser.newContext({
      viewport: { width, height },
      colorScheme: dark ? 'dark' : 'light',
      locale: 'en-US',
      acceptDownloads: true,
    });
    // Reading a scan on a busy machine takes its time: what is waited for still has to come.
    this.#context.setDefaultTimeout(120_000);
    this.#page = await this.#context.newPage();
    await this.#page.goto(this.loopback.address());
    return this;
  }

  async #serve(): Promise<void> {
    const { uploadLimit } = this.#options;
    this.#loopback = await openLoopback({ host: this.#host, window: builtWindow, uploadLimit });
  }

  get host(): WindowDesk {
    return this.#host;
  }

  get loopback(): LoopbackHost {
    if (this.#loopback === undefined) throw new Error('The host is not open.');
    return this.#loopback;
  }

  get page(): Page {
    if (this.#page === undefined) throw new Error('The window is not open.');
    return this.#page;
  }

  get context(): BrowserContext {
    if (this.#context === undefined) throw new Error('The window is not open.');
    return this.#context;
  }

  /** Opens the sample lot and goes to a screen of it. */
  async openSample(screen = 'today'): Promise<Page> {
    await this.page.evaluate((day) => window.localStorage.setItem('lotfile.day.sample', day), sampleDay);
    await this.go(`#/sample/${screen}`);
    await this.page.reload();
    await this.page.locator('main.screen h1').waitFor();
    return this.page;
  }

  /** Goes to an address of the window: `#/sample/papers`. */
  async go(hash: string): Promise<void> {
    await this.page.evaluate((to) => {
      window.location.hash = to;
    }, hash);
  }

  /** The host goes away, as when its program is ended. */
  async stopHost(): Promise<void> {
    await this.loopback.close();
    await this.#host.close();
  }

  /** The host comes back at the same address. */
  async startHost(): Promise<void> {
    this.#host = this.#newHost();
    await this.#serve();
  }

  async [Symbol.asyncDispose](): Promise<void> {
    await this.#context?.close();
    await this.#browser?.close();
    await this.#loopback?.close().catch(() => undefined);
    await this.#host.close().catch(() => undefined);
    rmSync(this.folder, { recursive: true, force: true });
  }
}

export async function openWindow(options: WindowOptions = {}): Promise<OpenWindow> {
  return new OpenWindow(options).begin();
}

const axeProgram = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** What axe finds against WCAG 2.2 A and AA on the page as it is, each as a line. */
export async function axeFindings(page: Page): Promise<readonly string[]> {
  // A slip that is still coming in is half transparent: its colours are not those it is read with.
  await page.evaluate(() =>
    Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => undefined))),
  );
  // Injected by the browser's own tools: the page's policy forbids foreign script, as it should.
  const session = await page.context().newCDPSession(page);
  const { readFileSync } = await import('node:fs');
  await session.send('Runtime.evaluate', { expression: readFileSync(axeProgram, 'utf8') });
  const { result } = await session.send('Runtime.evaluate', {
    expression: `axe.run(document, {runOnly: ['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa']})
      .then(({violations}) => JSON.stringify(violations.flatMap(({id, nodes}) =>
        nodes.map(({target, failureSummary}) => id + ' at ' + target.join(' ') + ': ' + failureSummary))))`,
    awaitPromise: true,
    returnByValue: true,
  });
  await session.detach();
  const found: unknown = JSON.parse(String(result.value));
  return Array.isArray(found) ? found.map(String) : [];
}
