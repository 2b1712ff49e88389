import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { LotfileError } from '../../core/desk/door.ts';
import { HandedOver, TooLarge } from '../host/handed-over.ts';
import type { WindowDesk } from '../host/window-desk.ts';
import { securityHeaders } from '../served/security-headers.ts';
import { notThere, plainPage, type Served } from '../served/served.ts';
import { serveTicket } from '../served/ticket-bytes.ts';
import { WindowFiles } from '../served/window-files.ts';
import { EventStreams } from './event-streams.ts';
import { guard } from './guard.ts';
import { errorOf, send, sendError, sendReply } from './send.ts';
import { cookieKeys, readKept, rememberPort, Session } from './session.ts';
import { answerWrite } from './writes.ts';

export interface LoopbackOptions {
  readonly host: WindowDesk;
  /** The built window. */
  readonly window: string;
  /** Bytes a file may have; 2 GB unless tests say otherwise. */
  readonly uploadLimit?: number | undefined;
}

const challengeForm = /^[0-9a-f]{32,64}$/;

function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => {
      server.off('error', reject);
      const at: AddressInfo | string | null = server.address();
      if (at === null || typeof at === 'string') reject(new Error('The host has no address.'));
      else resolve(at.port);
    });
  });
}

/** The port of last time, so that a window left open goes on; any other where that is taken. */
async function listenSomewhere(server: Server, wanted: number): Promise<number> {
  try {
    return await listen(server, wanted);
  } catch (cause) {
    if (wanted === 0) {
      throw new LotfileError('internal', 'No port is free on this computer.', { next: 'Close other programs.', cause });
    }
    return listen(server, 0);
  }
}

/** The same window in a browser, for this computer alone. Opened by `openLoopback`. */
export class LoopbackHost {
  readonly port: number;
  readonly #server: Server;
  readonly #host: WindowDesk;
  readonly #files: WindowFiles;
  readonly #handedOver: HandedOver;
  readonly #session: Session;
  readonly #events: EventStreams;

  constructor(server: Server, port: number, { host, window, uploadLimit }: LoopbackOptions) {
    this.port = port;
    this.#server = server;
    this.#host = host;
    this.#files = new WindowFiles(window);
    this.#handedOver = new HandedOver(host.places.config, String(port), uploadLimit);
    const { config } = host.places;
    this.#session = new Session({ secret: readKept(config).secret, port, keys: cookieKeys(config) });
    this.#events = new EventStreams(host);
    rememberPort(host.places.config, port);
    server.on('request', (request, response) => void this.#answer(request, response));
  }

  /** The address to open the window with; good once. */
  address(): string {
    return `http://127.0.0.1:${this.port}/?token=${this.#session.newToken()}`;
  }

  /** Ends every connection and clears what was handed over; the desk is its owner's to close. */
  async close(): Promise<void> {
    this.#events.close();
    const ended = new Promise((resolve) => this.#server.close(resolve));
    this.#server.closeAllConnections();
    await ended;
    this.#handedOver.clear();
  }

  async [Symbol.asyncDispose](): Promise<void> {
    await this.close();
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const nonce = randomBytes(16).toString('base64url');
    const headers = { ...securityHeaders(nonce), ...this.#session.renewal(request.headers.cookie) };
    response.on('error', () => response.destroy());
    try {
      if (request.method === 'POST') await this.#write(request, response, headers);
      else await this.#read(request, response, { nonce, headers });
    } catch (thrown) {
      const error = LotfileError.from(thrown);
      if (error instanceof TooLarge) endUnread(request, response);
      if (!response.headersSent) sendError(response, error instanceof TooLarge ? 413 : 400, error.toJSON(), headers);
      else response.destroy();
    }
  }

  async #write(
    request: IncomingMessage,
    response: ServerResponse,
    headers: Readonly<Record<string, string>>,
  ): Promise<void> {
    const away = guard(request, this.port) ?? this.#unknown(request);
    if (away !== undefined) {
      endUnread(request, response);
      sendError(response, away.status, errorOf(away), headers);
      return;
    }
    sendReply(
      response,
      await answerWrite(request, { host: this.#host, handedOver: this.#handedOver, events: this.#events }),
      headers,
    );
  }

  #unknown(request: IncomingMessage) {
    if (this.#session.isKnown(request.headers.cookie)) return undefined;
    return {
      status: 403,
      sentence: 'This browser has not been let in.',
      next: 'Open the window with the address that Lotfile printed when it started.',
    };
  }

  async #read(
    request: IncomingMessage,
    response: ServerResponse,
    { nonce, headers }: { readonly nonce: string; readonly headers: Readonly<Record<string, string>> },
  ): Promise<void> {
    const away = guard(request, this.port);
    if (away !== undefined) return send(response, plainPage(away.status, away.sentence, away.next), headers);
    // Put together, not resolved: "//name" and "http://name" would pass for another host.
    const url = URL.parse(`http://127.0.0.1${request.url ?? ''}`);
    if (url === null || url.hostname !== '127.0.0.1') return send(response, notThere(), headers);
    const token = url.pathname === '/' ? url.searchParams.get('token') : null;
    if (token !== null) return send(response, this.#exchange(token), headers);
    if (url.pathname === '/alive') return send(response, this.#alive(url), headers);
    const unknown = this.#unknown(request);
    if (unknown !== undefined) return send(response, plainPage(403, unknown.sentence, unknown.next), headers);
    if (url.pathname === '/events') return this.#events.open(response, url.searchParams.get('window') ?? '', headers);
    const range = request.headers.range;
    return send(response, this.#served(url, nonce, range), headers);
  }

  #served(url: URL, nonce: string, range: string | undefined): Served {
    if (url.pathname === '/') return this.#files.page(nonce);
    const [, ticket] = /^\/bytes\/([^/]+)$/.exec(url.pathname) ?? [];
    if (ticket !== undefined) return serveTicket(this.#host, { ticket, range, save: url.searchParams.has('save') });
    try {
      return this.#files.file(decodeURIComponent(url.pathname));
    } catch {
      return notThere();
    }
  }

  #exchange(token: string): Served {
    if (!this.#session.takeToken(token)) {
      return plainPage(
        403,
        'This address was used already, or is not from this run of Lotfile.',
        'Start Lotfile again to get a new one: npm start.',
      );
    }
    const headers = { location: '/', 'set-cookie': this.#session.setCookie(), 'cache-control': 'no-store' };
    return { status: 303, headers, body: '' };
  }

  #alive(url: URL): Served {
    const challenge = url.searchParams.get('challenge') ?? '';
    if (!challengeForm.test(challenge)) return notThere();
    const headers = { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' };
    return { status: 200, headers, body: this.#session.proof(challenge) };
  }
}

/** What is left of a body is not read: the connection ends with the answer. */
function endUnread(request: IncomingMessage, response: ServerResponse): void {
  request.pause();
  response.setHeader('connection', 'close');
  response.on('finish', () => setTimeout(() => request.socket.destroy(), 1000).unref());
}

/** Opens the host on 127.0.0.1 and nowhere else. */
export async function openLoopback(options: LoopbackOptions): Promise<LoopbackHost> {
  const server = createServer({ requestTimeout: 0, headersTimeout: 20_000 });
  const port = await listenSomewhere(server, readKept(options.host.places.config).port);
  return new LoopbackHost(server, port, options);
}
