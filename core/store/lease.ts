import { randomUUID } from 'node:crypto';
import { uptime } from 'node:os';
import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Holder } from './keeping-model.ts';

interface LeaseRow {
  readonly token: string;
  readonly program: string;
  readonly host: string;
  readonly pid: number;
  readonly booted: number;
  readonly heartbeat: number;
}

/** Seconds between heartbeats, and after how many without one a holder may be doubted or overruled. */
const beatEvery = 20;
const doubtAfter = 120;
const takeOverAfter = 300;
/** A heartbeat from further ahead than any two clocks differ was written before a clock was set back. */
const clockSetBack = 86_400;

export function processLives(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it lives, but belongs to somebody else.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

function busy(row: LeaseRow, silent: number): LotfileError {
  const since = silent < doubtAfter ? '' : ` It has not been heard of for ${Math.round(silent / 60)} minutes.`;
  return new LotfileError(
    'lot busy',
    `This lot is open in ${row.program} on ${row.host} (process ${row.pid}).${since}`,
    {
      about: row.program,
      next:
        silent < takeOverAfter
          ? 'Work there, or close it there first.'
          : 'Close it there first; if that computer is gone, take the lot over.',
    },
  );
}

/** Holds of this very process: a row of ours that is none of these was left when a disk went away. */
const held = new Set<string>();

/** Who works on a lot, as a row renewed by heartbeats. One program at a time. */
export class Lease {
  readonly #db: Database;
  readonly #token = randomUUID();
  readonly #now: () => Date;
  #timer: NodeJS.Timeout | undefined;

  constructor(db: Database, now: () => Date) {
    this.#db = db;
    this.#now = now;
  }

  #seconds(): number {
    return Math.floor(this.#now().getTime() / 1000);
  }

  /** Seconds since the holder was last heard of. */
  #silence({ heartbeat }: LeaseRow): number {
    const silent = this.#seconds() - heartbeat;
    return silent < -clockSetBack ? -silent : silent;
  }

  #row(): LeaseRow | undefined {
    return this.#db.prepare<[], LeaseRow>('SELECT * FROM lease WHERE id = 1').get();
  }

  /** Its process is gone or has let go of it without being able to say so: no such process on this very computer, or the computer was started anew since. */
  #isGone(row: LeaseRow, here: { host: string; booted: number }): boolean {
    if (row.host !== here.host) return false;
    if (!processLives(row.pid) || (row.pid === process.pid && !held.has(row.token))) return true;
    const silent = this.#silence(row);
    return Math.abs(row.booted - here.booted) > 60 && silent > doubtAfter;
  }

  /**
   * Takes the lease, or throws `lot busy` naming who has it. A lease whose process is gone is taken over;
   * one of another computer only when `takeOver` is asked for and it has been silent for five minutes.
   */
  take(holder: Holder, takeOver: boolean): void {
    const booted = Math.round(Date.now() / 1000 - uptime());
    this.#db
      .transaction(() => {
        const row = this.#row();
        if (row !== undefined) {
          const silent = this.#silence(row);
          const overruled = takeOver && silent >= takeOverAfter;
          if (!overruled && !this.#isGone(row, { host: holder.host, booted })) throw busy(row, silent);
        }
        this.#db
          .prepare('INSERT OR REPLACE INTO lease VALUES (1, ?, ?, ?, ?, ?, ?)')
          .run(this.#token, holder.program, holder.host, holder.pid, booted, this.#seconds());
      })
      .immediate();
    held.add(this.#token);
    this.#timer = setInterval(() => this.#beat(), beatEvery * 1000);
    this.#timer.unref();
  }

  #beat(): void {
    try {
      this.#db.prepare('UPDATE lease SET heartbeat = ? WHERE token = ?').run(this.#seconds(), this.#token);
    } catch {
      // A disk that fails now will say so at the next act, to somebody who can do something about it.
    }
  }

  /** @throws LotfileError `lot busy` where another program has taken the lot over. */
  mustHold(): void {
    const row = this.#row();
    if (row?.token === this.#token) return;
    throw row === undefined
      ? new LotfileError('lot busy', 'The hold on this lot is gone.', { next: 'Close the lot and open it again.' })
      : busy(row, this.#silence(row));
  }

  release(): void {
    clearInterval(this.#timer);
    held.delete(this.#token);
    this.#db.prepare('DELETE FROM lease WHERE token = ?').run(this.#token);
  }
}
