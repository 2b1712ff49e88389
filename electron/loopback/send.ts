import { createReadStream } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { pipeline } from 'node:stream/promises';
import { type ErrorShape, LotfileError, type Reply } from '../../core/desk/door.ts';
import type { Served } from '../served/served.ts';
import type { TurnedAway } from './guard.ts';

type Headers = Readonly<Record<string, string>>;

/** Sends what is served; a window that went away in the middle is no error. */
export async function send(response: ServerResponse, served: Served, headers: Headers): Promise<void> {
  response.writeHead(served.status, { ...headers, ...served.headers });
  if (typeof served.body === 'string' || served.body.end < served.body.start) {
    response.end(typeof served.body === 'string' ? served.body : '');
    return;
  }
  const { path, start, end } = served.body;
  await pipeline(createReadStream(path, { start, end }), response).catch(() => response.destroy());
}

export function sendReply(response: ServerResponse, reply: Reply<unknown>, headers: Headers): void {
  response.writeHead(200, {
    ...headers,
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
  });
  response.end(JSON.stringify(reply));
}

/** A request that never reached the desk. */
export function sendError(response: ServerResponse, status: number, error: ErrorShape, headers: Headers): void {
  const reply: Reply<never> = { ok: false, error };
  response.writeHead(status, {
    ...headers,
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
  });
  response.end(JSON.stringify(reply));
}

export function errorOf({ sentence, next }: TurnedAway): ErrorShape {
  return new LotfileError('wrong use', sentence, { next }).toJSON();
}
