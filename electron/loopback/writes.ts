import type { IncomingMessage } from 'node:http';
import * as z from 'zod';
import { LotfileError, type Reply } from '../../core/desk/door.ts';
import type { HandedOver } from '../host/handed-over.ts';
import type { WindowDesk } from '../host/window-desk.ts';
import { readJson } from './bodies.ts';
import type { EventStreams } from './event-streams.ts';
import { takeUpload } from './uploads.ts';

const asked = z.object({ argument: z.unknown().optional(), asking: z.unknown().optional() });
const acted = z.object({ argument: z.unknown().optional() });
const standing = z.object({ others: z.array(z.string().min(1).max(100)).max(200) });
const stopped = z.object({ id: z.string().min(1).max(100) });

function read<Out>(schema: z.ZodType<Out>, body: unknown): Out {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  throw new LotfileError('wrong use', 'The request was not understood.', { next: 'Load the window again.' });
}

function windowOf({ headers }: IncomingMessage): string {
  const name = headers['x-lotfile-window'];
  return typeof name === 'string' ? name : '';
}

export interface WriteDoors {
  readonly host: WindowDesk;
  readonly handedOver: HandedOver;
  readonly events: EventStreams;
}

/**
 * Answers a POST of a window that was let in: `/ask/<request>`, `/act/<act>`, `/stop`, `/windows`, `/files`.
 * @throws LotfileError where it never reached the desk.
 */
export async function answerWrite(request: IncomingMessage, doors: WriteDoors): Promise<Reply<unknown>> {
  const { host } = doors;
  const [, door = '', name = '', rest] = (request.url ?? '').split('/');
  if (rest === undefined) {
    switch (door) {
      case 'ask': {
        const { argument, asking } = read(asked, await readJson(request));
        return host.ask(name, argument, asking, windowOf(request));
      }
      case 'act':
        return host.act(name, read(acted, await readJson(request)).argument);
      case 'stop':
        host.stop(read(stopped, await readJson(request)).id);
        return { ok: true, answer: { stopped: true } };
      case 'windows':
        doors.events.stand(windowOf(request), read(standing, await readJson(request)).others);
        return { ok: true, answer: { noted: true } };
      case 'files':
        return { ok: true, answer: await takeUpload(request, { ...doors, window: windowOf(request) }) };
    }
  }
  throw new LotfileError('not found', 'There is nothing under this address.', { next: 'Load the window again.' });
}
