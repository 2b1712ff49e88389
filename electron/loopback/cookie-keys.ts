import { randomBytes } from 'node:crypto';

/** What makes a cookie the one of these hours. */
export interface CookieKey {
  readonly key: string;
  /** Milliseconds since 1970 when it was made. */
  readonly since: number;
}

const minute = 60_000;
const hour = 60 * minute;
/** A cookie is given anew after so long. */
const turnAfter = 12 * hour;
/** A window left open asks again every second: when its host comes back, this is ample. */
const graceAtStart = 10 * minute;
/** Older than this, a cookie of an earlier run lets nobody in. */
const oldest = 7 * 24 * hour;

function fresh(now: number): CookieKey {
  return { key: randomBytes(16).toString('base64url'), since: now };
}

/**
 * The keys of the cookies that let a browser in. Each start of the host makes a new one, and so does every half day;
 * the one before it is good for a while, to be exchanged for the new one, so that a window left open goes on.
 */
export class CookieKeys {
  readonly #save: (key: CookieKey) => void;
  #now: CookieKey;
  #before: { readonly key: string; readonly until: number } | undefined;

  /** @param kept the key of the run before, where there was one. */
  constructor(kept: CookieKey | undefined, save: (key: CookieKey) => void, now = Date.now()) {
    this.#save = save;
    if (kept !== undefined && now - kept.since < oldest) this.#before = { key: kept.key, until: now + graceAtStart };
    this.#now = fresh(now);
    save(this.#now);
  }

  get current(): string {
    return this.#now.key;
  }

  /** The key that is still exchanged for the current one. */
  before(now = Date.now()): string | undefined {
    return this.#before !== undefined && now < this.#before.until ? this.#before.key : undefined;
  }

  /** Makes a new key where the current one has served its hours. */
  turn(now = Date.now()): void {
    if (now - this.#now.since < turnAfter) return;
    this.#before = { key: this.#now.key, until: now + turnAfter };
    this.#now = fresh(now);
    this.#save(this.#now);
  }
}
