import type { Reply, TakenFile, WindowAsking, WindowEvent, WindowPort } from '../../core/desk/contract/window-port.ts';
import { canShare, onceEach, ownEvents, sharedEvents } from './shared-events.ts';

const goneAway = {
  code: 'internal',
  message: 'The Lotfile program does not answer.',
  next: 'Start it again (npm start); this page goes on by itself.',
} as const;

/** What the wire brought is our own host's answer; anything else becomes an error in words. */
async function reply<Answer>(sent: Promise<Response>): Promise<Reply<Answer>> {
  try {
    const response = await sent;
    if (!(response.headers.get('content-type') ?? '').includes('json')) {
      return { ok: false, error: { code: 'internal', message: (await response.text()).slice(0, 300) } };
    }
    return await response.json();
  } catch {
    return { ok: false, error: goneAway };
  }
}

/** Tells this window from the others of one host: a lot is let go when no window has it open any more. */
const windowName = crypto.randomUUID();

function post<Answer>(path: string, body: unknown): Promise<Reply<Answer>> {
  const headers = { 'content-type': 'application/json', 'x-lotfile-window': windowName };
  return reply(fetch(path, { method: 'POST', headers, body: JSON.stringify(body) }));
}

function sendFile(file: File): Promise<Reply<TakenFile>> {
  const headers = {
    'content-type': 'application/octet-stream',
    'x-file-name': encodeURIComponent(file.name),
    'x-lotfile-window': windowName,
  };
  return reply(fetch('/files', { method: 'POST', headers, body: file }));
}

function listen(listener: (event: WindowEvent) => void): () => void {
  const hear = onceEach(listener);
  if (!canShare()) return ownEvents(windowName, hear);
  return sharedEvents(windowName, hear, (others) => void post('/windows', { others }));
}

/** The window in a browser: HTTP to the loopback host that served this page, and its event stream. */
export function browserPort(): WindowPort {
  return {
    host: 'browser',
    ask: (name, argument, asking: WindowAsking) => post(`/ask/${name}`, { argument, asking }),
    act: (name, argument) => post(`/act/${name}`, { argument }),
    stop: (id) => void post('/stop', { id }),
    offer: async (files) => {
      const replies: Reply<TakenFile>[] = [];
      for (const file of files) replies.push(await sendFile(file));
      return replies;
    },
    address: (ticket, use) => `/bytes/${ticket}${use === 'save' ? '?save' : ''}`,
    dragOut: () => undefined,
    on: listen,
  };
}
