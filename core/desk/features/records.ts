import type { FileSort } from '../../intake/sniff.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { parseMoney } from '../../vocabulary/money.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { Offered } from '../tickets.ts';
import { sortOfNamed } from './file-look.ts';
import { recordRow, smallsOf } from './intake/record-rows.ts';
import { acted } from './record-card.ts';

/** Whole cents of an amount as a person writes it. */
export function centsSaid(amount: string | undefined): number | undefined {
  if (amount === undefined) return undefined;
  const cents = parseMoney(/[a-z$]/i.test(amount) ? amount : `${amount} usd`);
  if (cents !== undefined) return cents;
  throw new LotfileError('wrong use', `"${amount}" is no amount of money.`, { next: 'Write 240 usd or 1,250.50 usd.' });
}

const kept: readonly FileSort[] = ['pdf', 'jpeg', 'png', 'heic', 'webp', 'tiff'];

/** A record's file is a picture or a PDF, told from its bytes; anything else was named by mistake. */
export function refuseStrangeFile(offered: Offered): void {
  const { name } = offered;
  if (kept.includes(sortOfNamed(offered))) return;
  throw new LotfileError('file refused', `"${name}" is no picture and no PDF.`, {
    about: name,
    next: 'Choose the photo or scan itself.',
  });
}

/** Light things: a dated photo, a receipt, a serial number, a note. */
export const record = onLot(requests.record, async ({ amount, file, ...said }, at) => {
  const cents = centsSaid(amount);
  const offered = file === undefined ? undefined : at.tickets.look(file);
  if (offered !== undefined) refuseStrangeFile(offered);
  const taken = offered === undefined ? undefined : await at.lot.takeInOriginal(offered.path, offered.name);
  return acted(at, `Noted the ${said.sort}: ${said.title}`, () => {
    at.lot.addRecord({ ...said, day: said.day ?? at.day, amount: cents, file: taken?.sha256 });
  });
});

export const records = onLot(requests.records, ({ trade, sort: only }, at) => {
  const smalls = smallsOf(at);
  return {
    records: at.lot
      .records({ sort: only })
      .filter((each) => trade === undefined || each.trade === trade)
      .map((each) => recordRow(each, at, smalls)),
  };
});
