import type { Day } from '../vocabulary/days.ts';

/** One date that goes out: a whole day, never a time, never a recurrence (each date is worked out by its own rule). */
export interface CalendarDate {
  /** What it is about, the same from file to file: "lapse/p-...", "visit/v-...", "target". */
  readonly key: string;
  readonly day: Day;
  readonly title: string;
  /** Whole sentences. */
  readonly words: readonly string[];
  readonly place?: string | undefined;
  /** Days ahead on which the alarm goes, at nine in the morning. */
  readonly alarms: readonly number[];
}

/** A date as it went out, with what a calendar needs to tell an update from a new event (RFC 5545, 3.8.7.4). */
export interface SentDate extends CalendarDate {
  readonly sequence: number;
  /** The day it was last changed. */
  readonly modified: Day;
  /** It no longer stands: calendars strike it out. */
  readonly cancelled: boolean;
}

/** The last file, kept in the lot. */
export interface SentCalendar {
  readonly day: Day;
  readonly dates: readonly SentDate[];
}

export interface DateChange {
  readonly sort: 'new' | 'moved' | 'reworded' | 'gone';
  readonly title: string;
  readonly day: Day;
  readonly was?: Day | undefined;
}
