import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openDesk } from '../../core/desk/desk.ts';
import type { RequestArgument, RequestName } from '../../core/desk/door.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import { makeLargeLot } from './large-lot.ts';

const today: Day = '2026-04-14';
/** One request of a screen: milliseconds, and bytes of JSON its answer has. */
export interface DeskRow {
  readonly asked: string;
  readonly afterChangeMs: number;
  readonly againMs: number;
  readonly bytes: number;
}

type Ask = { [N in RequestName]: readonly [N, RequestArgument<N>] }[RequestName];

const asks: readonly Ask[] = [
  ['today', {}],
  ['way', {}],
  ['lapses', { within: 60 }],
  ['inspections', {}],
  ['trades', {}],
  ['costs', {}],
  ['errand', { errand: 'permit-apply' }],
  ['papers', {}],
  ['papers', { wanted: true }],
  ['pages', { edition: 'P-0' }],
  ['with-offices', {}],
  ['read-lot', {}],
  ['table', {}],
  ['amendable', { errand: 'permit-apply' }],
  ['amendable', { paper: 'plans' }],
  ['practice', {}],
  ['practice-words', {}],
  ['find', { text: 'sewage' }],
  ['find', { text: 'septic permit' }],
  ['history', { limit: 100 }],
  ['packets', {}],
  ['handovers', {}],
  ['records', {}],
  ['plan', { errand: 'permit-apply' }],
];

/**
 * Each request a screen asks, in milliseconds, on a lot of 400 papers and 3,000 photo records: right after a change
 * (everything read anew; the middle of five) and asked again; and how many bytes of JSON its answer has.
 */
export async function benchDesk(root: string): Promise<readonly DeskRow[]> {
  const folder = join(root, 'desk-lot');
  await makeLargeLot(folder, { papers: 400, records: 3000, pages: 1200, today });
  for (let n = 0; n < 40; n += 1) writeFileSync(join(folder, 'table', `scan ${n}.pdf`), `%PDF-1.7 file ${n % 3} `);
  await using desk = openDesk({ program: 'bench', today: () => today });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  const timed = async ([name, argument]: Ask): Promise<number> => {
    const begun = performance.now();
    await desk.askUntyped(name, argument, { lot });
    return performance.now() - begun;
  };
  const rows: DeskRow[] = [];
  for (const ask of asks) {
    const after: number[] = [];
    for (let n = 0; n < 5; n += 1) {
      await desk.ask('answer', { question: 'lender', answer: n % 2 === 0 ? 'yes' : 'no' }, { lot });
      after.push(await timed(ask));
    }
    const again = await timed(ask);
    const bytes = JSON.stringify(await desk.askUntyped(ask[0], ask[1], { lot })).length;
    rows.push({
      asked: `${ask[0]} ${JSON.stringify(ask[1])}`,
      afterChangeMs: after.toSorted((a, b) => a - b)[2] ?? 0,
      againMs: again,
      bytes,
    });
  }
  return rows;
}
