import { randomUUID } from 'node:crypto';
import { basename } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';

/** A file or folder that a host offered, under the name the person knows it by. */
export interface Offered {
  readonly path: string;
  readonly name: string;
}

/**
 * The bytes door. Hosts offer files and folders and get a ticket; requests and answers carry tickets only,
 * so that no path ever comes from a window or a web page.
 */
export class Tickets {
  readonly #offered = new Map<string, Offered>();
  /** Path and name -> ticket, of files that are offered at every asking. */
  readonly #steady = new Map<string, string>();

  /** @param name what the person calls it; the path's last part unless given. */
  offer(path: string, name = basename(path)): string {
    const ticket = `t-${randomUUID()}`;
    this.#offered.set(ticket, { path, name });
    return ticket;
  }

  /** The same file under the same name gets the same ticket again, so that a window can remember what it fetched. */
  steady(path: string, name = basename(path)): string {
    const key = `${path}\0${name}`;
    const known = this.#steady.get(key);
    if (known !== undefined && this.#offered.has(known)) return known;
    const ticket = this.offer(path, name);
    this.#steady.set(key, ticket);
    return ticket;
  }

  /** @throws LotfileError `not found` for a ticket that was never given out or is used up. */
  look(ticket: string): Offered {
    const offered = this.#offered.get(ticket);
    if (offered === undefined) {
      throw new LotfileError('not found', 'This file was not handed to the desk.', {
        about: ticket,
        next: 'Choose the file again.',
      });
    }
    return offered;
  }

  /** Forgets a ticket; the file itself stays. */
  takeBack(ticket: string): void {
    this.#offered.delete(ticket);
  }
}
