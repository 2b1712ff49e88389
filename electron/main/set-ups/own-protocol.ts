import { randomBytes } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { Readable } from 'node:stream';
import { securityHeaders } from '../../served/security-headers.ts';
import { notThere, type Served } from '../../served/served.ts';
import { serveTicket } from '../../served/ticket-bytes.ts';
import { windowAddress } from '../channels.ts';
import type { Desktop } from '../desktop-model.ts';

const { protocol: ours } = new URL(windowAddress);
const scheme = ours.replace(':', '');

/** Has to be said before Electron is ready. */
export function declareProtocol({ parts }: Desktop): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true };
  parts.protocol.registerSchemesAsPrivileged([{ scheme, privileges }]);
}

function served({ host, files }: Desktop, request: Request, nonce: string): Served {
  const url = URL.parse(request.url);
  if (request.method !== 'GET' || url === null || url.host !== 'window') return notThere();
  if (url.pathname === '/') return files.page(nonce);
  const [, ticket] = /^\/bytes\/([^/]+)$/.exec(url.pathname) ?? [];
  const range = request.headers.get('range') ?? undefined;
  if (ticket !== undefined) return serveTicket(host, { ticket, range, save: url.searchParams.has('save') });
  try {
    return files.file(decodeURIComponent(url.pathname));
  } catch {
    return notThere();
  }
}

function bodyOf({ body }: Served): string | ReadableStream {
  if (typeof body === 'string') return body;
  if (body.end < body.start) return '';
  return Readable.toWeb(createReadStream(body.path, { start: body.start, end: body.end }));
}

/** `lotfile://window/`: the same files, bytes, ranges and policy as the loopback host serves. */
export function ownProtocol(desktop: Desktop): void {
  desktop.parts.protocol.handle(scheme, (request) => {
    const nonce = randomBytes(16).toString('base64url');
    const answer = served(desktop, request, nonce);
    const headers = { ...securityHeaders(nonce), ...answer.headers };
    return new Response(bodyOf(answer), { status: answer.status, headers });
  });
}
