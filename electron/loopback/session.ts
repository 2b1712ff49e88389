import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { join } from 'node:path';
import * as z from 'zod';
import { readPrivate, writePrivate } from '../host/private-file.ts';
import { CookieKeys } from './cookie-keys.ts';

const cookieKey = z.object({ key: z.string().min(16), since: z.number() });
const fileSchema = z.object({
  secret: z.string().min(40),
  port: z.number().int().min(0).max(65535),
  cookie: cookieKey.optional(),
});

/** What a host keeps from run to run, so that a window goes on by itself when its host comes back. */
export interface Kept extends z.infer<typeof fileSchema> {}

function fileIn(config: string): string {
  return join(config, 'browser.json');
}

/** The secret of this person's hosts, made on first need; port 0 where none was used yet. */
export function readKept(config: string): Kept {
  const kept = readPrivate(fileIn(config), fileSchema);
  if (kept !== undefined) return kept;
  const fresh = { secret: randomBytes(32).toString('base64url'), port: 0 };
  writePrivate(fileIn(config), fresh);
  return fresh;
}

export function rememberPort(config: string, port: number): void {
  const kept = readKept(config);
  if (kept.port !== port) writePrivate(fileIn(config), { ...kept, port });
}

/** The keys of this start; the new one is written down for the next. */
export function cookieKeys(config: string): CookieKeys {
  return new CookieKeys(readKept(config).cookie, (cookie) => {
    writePrivate(fileIn(config), { ...readKept(config), cookie });
  });
}

function seal(secret: string, what: string): string {
  return createHmac('sha256', secret).update(what).digest('base64url');
}

function equal(a: string, b: string): boolean {
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  return left.length === right.length && timingSafeEqual(left, right);
}

/** A token good for one exchange with the host on this port; any program that can read the secret may make one. */
export function makeToken(secret: string, port: number, now = Date.now()): string {
  const plain = `${now}.${randomBytes(16).toString('base64url')}`;
  return `${plain}.${seal(secret, `token ${port} ${plain}`)}`;
}

/** Proves to another start of the program that this host is ours; says nothing to anybody else. */
export function proofOfLife(secret: string, port: number, challenge: string): string {
  return seal(secret, `alive ${port} ${challenge}`);
}

interface SessionOptions {
  readonly secret: string;
  readonly port: number;
  readonly keys: CookieKeys;
  readonly now?: number | undefined;
}

/** One host's door: tokens in, a cookie out, the cookie checked ever after. */
export class Session {
  readonly #secret: string;
  readonly #port: number;
  readonly #began: number;
  readonly #keys: CookieKeys;
  readonly #used = new Set<string>();

  constructor({ secret, port, keys, now = Date.now() }: SessionOptions) {
    this.#secret = secret;
    this.#port = port;
    this.#keys = keys;
    this.#began = now;
  }

  newToken(): string {
    return makeToken(this.#secret, this.#port);
  }

  /** @returns whether the token is ours, of this run, and was not used before; it is used up by asking. */
  takeToken(token: string): boolean {
    const [time = '', random = '', mark = ''] = token.split('.');
    if (!equal(mark, seal(this.#secret, `token ${this.#port} ${time}.${random}`))) return false;
    // One of an earlier run may have been used then; nobody remembers.
    if (Number(time) < this.#began || this.#used.has(random)) return false;
    this.#used.add(random);
    return true;
  }

  /** Cookies ignore ports: the name tells hosts on one computer apart. */
  get #cookieName(): string {
    return `lotfile-${this.#port}`;
  }

  #cookieValue(key: string): string {
    return seal(this.#secret, `cookie ${this.#port} ${key}`);
  }

  setCookie(): string {
    return `${this.#cookieName}=${this.#cookieValue(this.#keys.current)}; Path=/; HttpOnly; SameSite=Strict`;
  }

  #bears(header: string | undefined, key: string | undefined): boolean {
    if (key === undefined) return false;
    const value = this.#cookieValue(key);
    return (header ?? '').split(';').some((one) => {
      const at = one.indexOf('=');
      return one.slice(0, at).trim() === this.#cookieName && equal(one.slice(at + 1).trim(), value);
    });
  }

  /** @param header the request's whole Cookie header. */
  isKnown(header: string | undefined): boolean {
    return this.#bears(header, this.#keys.current) || this.#bears(header, this.#keys.before());
  }

  /** The new cookie for a browser that still bears the one before; nothing to set for any other. */
  renewal(header: string | undefined): { readonly 'set-cookie'?: string } {
    this.#keys.turn();
    const renew = !this.#bears(header, this.#keys.current) && this.#bears(header, this.#keys.before());
    return renew ? { 'set-cookie': this.setCookie() } : {};
  }

  proof(challenge: string): string {
    return proofOfLife(this.#secret, this.#port, challenge);
  }
}
