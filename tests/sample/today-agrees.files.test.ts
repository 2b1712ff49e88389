import { afterAll, describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import type { RequestAnswer, SampleName } from '../../core/desk/door.ts';
import { scratchFolder, toldState } from './told-states.ts';

const scratch = scratchFolder();
afterAll(() => scratch[Symbol.dispose]());

interface Slip {
  readonly today: RequestAnswer<'today'>;
  readonly month: RequestAnswer<'lapses'>;
}

async function slipOf(name: SampleName): Promise<Slip> {
  const { path, day } = await toldState(name, scratch.folder);
  await using desk = openDesk({ program: 'today agrees', today: () => day });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
  return { today: await desk.ask('today', {}, { lot }), month: await desk.ask('lapses', { within: 30 }, { lot }) };
}

describe('the slip for today', () => {
  it('has the cover that ends before the move under "put right first", and open corrections with their day', async () => {
    const { today, month } = await slipOf('final');
    const [policy] = today.amiss.filter(({ kind }) => kind === 'builders-risk-policy');
    expect(policy).toMatchObject({ sort: 'duty at risk', by: '2027-03-20' });
    const [walk] = today.corrections;
    expect(walk).toMatchObject({ words: 'passed with corrections', day: '2027-02-24', open: 3 });
    agree({ today, month });
  });

  it('tells a lapsed permit once, though it also had to stay alive', async () => {
    const { today, month } = await slipOf('framing');
    const told = [...today.amiss, ...today.soon].filter(({ kind }) => kind === 'septic-permit');
    expect(told.map(({ sort }) => sort)).toEqual(['lapsed']);
    agree({ today, month });
  });
});

/** What lapses within the month stands on the slip, and nothing that will lapse stands there alone. */
function agree({ today, month }: Slip): void {
  const key = ({ kind, subject }: { readonly kind?: string | undefined; readonly subject?: string | undefined }) =>
    `${kind} ${subject ?? ''}`;
  const slip = [...today.amiss, ...today.soon];
  expect(month.rows.length).toBeGreaterThan(0);
  expect(slip.map(key)).toEqual(expect.arrayContaining(month.rows.map(key)));
  const ahead = slip.filter(({ sort, by }) => sort === 'lapsing' && by !== undefined && by >= today.day);
  expect(month.rows.map(key)).toEqual(expect.arrayContaining(ahead.map(key)));
}
