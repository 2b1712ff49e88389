import { LotfileError } from '../../vocabulary/errors.ts';
import { parseMoney } from '../../vocabulary/money.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed } from '../named.ts';
import { acted } from './record-card.ts';

function centsSaid(amount: string | undefined): number | undefined {
  if (amount === undefined) return undefined;
  const cents = parseMoney(/[a-z$]/i.test(amount) ? amount : `${amount} usd`);
  if (cents !== undefined) return cents;
  throw new LotfileError('wrong use', `"${amount}" is no amount of money.`, { next: 'Write 240 usd or 1,250.50 usd.' });
}

/** Light things: a dated photo, a receipt, a serial number, a note. */
export const record = onLot(requests.record, async ({ sort, title, day, place, trade, amount, file }, at) => {
  const cents = centsSaid(amount);
  const offered = file === undefined ? undefined : at.tickets.look(file);
  const taken = offered === undefined ? undefined : await at.lot.takeInOriginal(offered.path, offered.name);
  return acted(at, `Noted the ${sort}: ${title}`, () => {
    at.lot.addRecord({ sort, title, day: day ?? at.day, place, trade, amount: cents, file: taken?.sha256 });
  });
});

export const records = onLot(requests.records, ({ trade }, { lot }) => ({
  records: lot
    .records()
    .filter((each) => trade === undefined || each.trade === trade)
    .map(({ id, sort, title, day, place, trade: forTrade, amount }) => ({
      record: id,
      sort,
      title,
      day,
      place: place ?? '',
      trade: forTrade ?? '',
      amount,
    })),
}));

/** Removes a private paper's files for good; a marker with the reason stays. */
export const purge = onLot(requests.purge, ({ edition: said, reason }, { lot }) => {
  const { edition } = editionNamed(lot.view(), said);
  const files = new Set(lot.editionContent([edition.id])[edition.id]?.originals.map(({ sha256 }) => sha256));
  for (const sha256 of files) lot.purge(sha256, reason);
  return { act: String(lot.acts(1)[0]?.id ?? '') };
});
