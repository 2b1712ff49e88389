import type { ServerResponse } from 'node:http';
import type { WindowEvent } from '../../core/desk/door.ts';
import type { WindowDesk } from '../host/window-desk.ts';

/** Proxies and sleeping computers drop silent connections. */
const breath = 20_000;
/** A window that loads again is back within this; one that stays away was closed. */
const awayAfter = 30_000;

/** The server-sent events of every window that is open. */
export class EventStreams {
  readonly #streams = new Map<ServerResponse, string>();
  readonly #away = new Map<string, NodeJS.Timeout>();
  readonly #host: WindowDesk;
  readonly #timer: NodeJS.Timeout;
  #closed = false;

  constructor(host: WindowDesk) {
    this.#host = host;
    this.#timer = setInterval(() => this.#write(': here\n\n'), breath);
    this.#timer.unref();
    host.on((event) => this.#tell(event));
  }

  /** @param window the window's own name, made by itself. */
  open(response: ServerResponse, window: string, headers: Readonly<Record<string, string>>): void {
    clearTimeout(this.#away.get(window));
    this.#away.delete(window);
    response.writeHead(200, { ...headers, 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write('retry: 1000\n\n');
    this.#streams.set(response, window);
    response.on('close', () => {
      this.#streams.delete(response);
      this.#mayBeGone(window);
    });
  }

  close(): void {
    this.#closed = true;
    clearInterval(this.#timer);
    for (const timer of this.#away.values()) clearTimeout(timer);
    for (const stream of this.#streams.keys()) stream.end();
    this.#streams.clear();
  }

  #mayBeGone(window: string): void {
    if (this.#closed || window === '' || [...this.#streams.values()].includes(window)) return;
    const timer = setTimeout(() => {
      this.#away.delete(window);
      void this.#host.windowGone(window);
    }, awayAfter);
    timer.unref();
    this.#away.set(window, timer);
  }

  #tell(event: WindowEvent): void {
    this.#write(`data: ${JSON.stringify(event)}\n\n`);
  }

  #write(text: string): void {
    for (const stream of this.#streams.keys()) stream.write(text);
  }
}
