import type { ServerResponse } from 'node:http';
import type { WindowEvent } from '../../core/desk/door.ts';
import type { WindowDesk } from '../host/window-desk.ts';

/** Proxies and sleeping computers drop silent connections. */
const breath = 20_000;
/** A window that loads again is back within this; one that stays away was closed. */
const awayAfter = 30_000;

interface Stream {
  readonly window: string;
  /** Windows of the same browser that hear through it. */
  readonly others: ReadonlySet<string>;
}

/** The server-sent events of every window that is open. */
export class EventStreams {
  readonly #streams = new Map<ServerResponse, Stream>();
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
    this.#isBack(window);
    response.writeHead(200, { ...headers, 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write('retry: 1000\n\n');
    this.#streams.set(response, { window, others: new Set() });
    response.on('close', () => {
      const others = this.#streams.get(response)?.others ?? [];
      this.#streams.delete(response);
      for (const each of [window, ...others]) this.#mayBeGone(each);
    });
  }

  /** A window's stream stands for these others of its browser from now on. */
  stand(window: string, others: readonly string[]): void {
    for (const [response, stream] of this.#streams) {
      if (stream.window !== window) continue;
      this.#streams.set(response, { window, others: new Set(others) });
      for (const each of others) this.#isBack(each);
      for (const each of stream.others) this.#mayBeGone(each);
    }
  }

  close(): void {
    this.#closed = true;
    clearInterval(this.#timer);
    for (const timer of this.#away.values()) clearTimeout(timer);
    for (const stream of this.#streams.keys()) stream.end();
    this.#streams.clear();
  }

  #isBack(window: string): void {
    clearTimeout(this.#away.get(window));
    this.#away.delete(window);
  }

  #isHere(name: string): boolean {
    return [...this.#streams.values()].some(({ window, others }) => window === name || others.has(name));
  }

  #mayBeGone(window: string): void {
    if (this.#closed || window === '' || this.#away.has(window) || this.#isHere(window)) return;
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
