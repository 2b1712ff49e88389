import type { Asked } from '../../readiness/index.ts';
import { addDays, daysBetween } from '../../vocabulary/days.ts';
import { onLot } from '../context.ts';
import type { LapsesRow } from '../contract/lapse-answers.ts';
import { requests } from '../contract/requests.ts';
import { entryIn } from '../named.ts';
import { type Ahead, aheadOf, lapsedNow } from './ahead.ts';
import { askedOf, titleOfFound } from './asked.ts';

function lapsesRow({ finding, through, askBy }: Ahead, asked: Asked): LapsesRow {
  const { kind = '', subject, edition, paper, why, remedy } = finding;
  return {
    kind,
    subject,
    title: titleOfFound(finding, asked),
    number: (edition === undefined ? undefined : entryIn(asked.lot, edition)?.edition.number) ?? '',
    through,
    days: daysBetween(asked.day, through),
    askBy,
    why,
    remedy: remedy.say,
    paper,
  };
}

/** What has lapsed and is still needed, then what lapses in a while, until when more time can be asked for, and what to do about each. */
export const lapses = onLot(requests.lapses, ({ within }, at) => {
  const asked = askedOf(at);
  // What ended without a last good day (closed, or something happened) stands on the slip for today alone.
  const ended = lapsedNow(asked).flatMap(({ finding, on }) => (on === undefined ? [] : [{ finding, through: on }]));
  const rows = [...ended, ...aheadOf(asked, within)].map((each) => lapsesRow(each, asked));
  return { day: asked.day, within, until: addDays(asked.day, within), rows };
});
