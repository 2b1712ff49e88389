import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Dialogs } from '../../electron/host/dialogs.ts';
import { WindowDesk } from '../../electron/host/window-desk.ts';
import { type LoopbackHost, openLoopback } from '../../electron/loopback/loopback-host.ts';

export { answered } from './hosts-answers.ts';

export const kitDay: Day = '2026-04-14';

/** A folder of its own, gone at the end. */
export function scratch(): { readonly root: string } & Disposable {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-host-'));
  return { root, [Symbol.dispose]: () => rmSync(root, { recursive: true, force: true }) };
}

export function windowDeskIn(root: string, more: { readonly dialogs?: Dialogs; readonly version?: string } = {}) {
  const places = { config: join(root, 'config'), lots: join(root, 'lots') };
  return new WindowDesk({ program: 'test window', version: '9.9.9', places, today: () => kitDay, ...more });
}

/** One field of an untyped answer that has to be a text. */
export function textOf(answer: unknown, field: string): string {
  const value: unknown = typeof answer === 'object' && answer !== null ? Reflect.get(answer, field) : undefined;
  if (typeof value !== 'string') throw new Error(`The answer has no "${field}": ${JSON.stringify(answer)}`);
  return value;
}

export interface Got {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly bytes: Buffer;
  readonly text: string;
}

export interface Sent {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'OPTIONS';
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Buffer;
}

/** A request exactly as said: nothing is added, so that a test can be any kind of stranger. */
export function send(port: number, path: string, { method = 'GET', headers = {}, body }: Sent = {}): Promise<Got> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('error', reject);
      response.on('end', () => {
        const bytes = Buffer.concat(parts);
        resolve({ status: response.statusCode ?? 0, headers: response.headers, bytes, text: bytes.toString() });
      });
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

export interface Kit extends AsyncDisposable {
  readonly root: string;
  readonly desk: WindowDesk;
  readonly loopback: LoopbackHost;
  readonly origin: string;
  /** Headers of a window that was let in. */
  readonly known: Readonly<Record<string, string>>;
  post(path: string, body: unknown, headers?: Readonly<Record<string, string>>): Promise<Got>;
  get(path: string, headers?: Readonly<Record<string, string>>): Promise<Got>;
}

const standIn = '<!doctype html><meta property="csp-nonce" content="__NONCE__"><script src="/assets/a-1.js"></script>';

/** Exchanges the host's token for the cookie, as a browser does. */
export async function enter(loopback: LoopbackHost): Promise<string> {
  const { pathname, search } = new URL(loopback.address());
  const { headers } = await send(loopback.port, pathname + search);
  return headers['set-cookie']?.[0]?.split(';')[0] ?? '';
}

/** A loopback host on real folders with a stand-in window, and a browser that was let in. */
export async function openKit(options: { readonly uploadLimit?: number } = {}): Promise<Kit> {
  const { root, [Symbol.dispose]: clear } = scratch();
  const window = join(root, 'window');
  mkdirSync(join(window, 'assets'), { recursive: true });
  writeFileSync(join(window, 'index.html'), standIn);
  writeFileSync(join(window, 'assets', 'a-1.js'), 'export {};\n');
  writeFileSync(join(root, 'beside.txt'), 'not for anybody');
  const desk = windowDeskIn(root);
  const loopback = await openLoopback({ host: desk, window, ...options });
  const origin = `http://127.0.0.1:${loopback.port}`;
  const known = { host: `127.0.0.1:${loopback.port}`, cookie: await enter(loopback) };
  return {
    root,
    desk,
    loopback,
    origin,
    known,
    post: (path, body, headers = {}) =>
      send(loopback.port, path, {
        method: 'POST',
        headers: { ...known, origin, 'content-type': 'application/json', ...headers },
        body: Buffer.isBuffer(body) ? body : JSON.stringify(body),
      }),
    get: (path, headers = {}) => send(loopback.port, path, { headers: { ...known, ...headers } }),
    [Symbol.asyncDispose]: async () => {
      await loopback.close();
      await desk.close();
      clear();
    },
  };
}
