import type { IncomingMessage } from 'node:http';

/** Why a request is turned away, in a sentence. */
export interface TurnedAway {
  readonly status: number;
  readonly sentence: string;
  readonly next: string;
}

function turnedAway(sentence: string): TurnedAway {
  return { status: 403, sentence, next: 'Open the window with the address that Lotfile printed when it started.' };
}

/**
 * Looks at what a browser says of itself before anything else is read. A page on another site, or on another port of
 * this computer, gets nothing here.
 */
export function guard({ method, headers }: IncomingMessage, port: number): TurnedAway | undefined {
  const own = `127.0.0.1:${port}`;
  if (headers.host !== own) return turnedAway('This address is not the one Lotfile listens on.');
  const site = headers['sec-fetch-site'];
  switch (method) {
    case 'GET':
      // Pages of other ports are "same-site" and would send the cookie along.
      if (site === undefined || site === 'same-origin' || site === 'none') return undefined;
      return turnedAway('Another page tried to read from Lotfile.');
    case 'POST':
      if (headers.origin !== `http://${own}`) return turnedAway('Another page tried to write to Lotfile.');
      return site === undefined || site === 'same-origin'
        ? undefined
        : turnedAway('Another page tried to write to Lotfile.');
    default:
      return { status: 405, sentence: 'Lotfile does not take this kind of request.', next: 'Load the window again.' };
  }
}
