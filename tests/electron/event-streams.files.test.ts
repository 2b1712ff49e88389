import { createServer, type IncomingMessage, request, type Server } from 'node:http';
import { setTimeout } from 'node:timers/promises';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { EventStreams } from '../../electron/loopback/event-streams.ts';
import { scratch, windowDeskIn } from './hosts-kit.ts';

let server: Server;
let streams: EventStreams;
let gone: string[];
const at = scratch();
const desk = windowDeskIn(at.root);

beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  gone = [];
  vi.spyOn(desk, 'windowGone').mockImplementation(async (window) => void gone.push(window));
  streams = new EventStreams(desk);
  server = createServer((asked, response) => streams.open(response, asked.url?.slice(1) ?? '', {}));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
});
afterEach(async () => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  streams.close();
  server.closeAllConnections();
  server.close();
  await desk.close();
  at[Symbol.dispose]();
});

function hears(window: string): Promise<IncomingMessage> {
  const { port } = { port: 0, ...Object(server.address()) };
  return new Promise((resolve, reject) => {
    request({ host: '127.0.0.1', port, path: `/${window}` }, (response) => {
      response.on('error', () => undefined);
      response.once('data', () => resolve(response));
    })
      .on('error', reject)
      .end();
  });
}

it('a window that hears through another’s stream is here as long as that one stands for it', async () => {
  const first = await hears('first');
  streams.stand('first', ['second', 'third']);
  streams.stand('first', ['second']);
  vi.advanceTimersByTime(40_000);
  // The third was closed; the second is here although it has no stream of its own.
  expect(gone).toEqual(['third']);
  first.destroy();
  // The second takes over the hearing before anybody counts as gone.
  await hears('second');
  await setTimeout(50);
  vi.advanceTimersByTime(40_000);
  expect(gone).toEqual(['third', 'first']);
});
