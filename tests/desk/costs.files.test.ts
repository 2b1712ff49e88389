import { describe, expect, test } from 'vitest';
import { bill, estimate, twoDraws, usd } from './money-of-the-house.ts';
import { openSmallLot } from './small-lot.ts';

describe('the ledger', () => {
  test('shows estimate, agreed, paid and still to pay by trade, and what the contingency has left', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    await desk.ask('cost-line', { title: 'Contingency', sort: 'contingency', estimate: '$62,500' }, { lot });
    await desk.ask('cost-line', { row: 'Framing', agreed: '64,000' }, { lot });
    await desk.ask(
      'change-order',
      { line: 'Framing', amount: '1,500', title: 'Porch', fromContingency: true },
      { lot },
    );
    await desk.ask('change-order', { line: 'Plumbing', amount: '-400', title: 'One bath less' }, { lot });
    await bill(small, { line: 'Framing', dollars: 20_000, day: '2026-04-10', paid: '2026-04-12' });
    const { rows, contingency, totals, orders } = await desk.ask('costs', {}, { lot });
    const framing = rows.find(({ title }) => title === 'Framing');
    expect(framing).toMatchObject({ estimate: 6_200_000, agreed: 6_550_000, paid: 2_000_000, toPay: 4_550_000 });
    expect(contingency).toMatchObject({
      planned: 6_250_000,
      share: 2500,
      moved: 150_000,
      overruns: 200_000,
      left: 5_900_000,
    });
    expect(totals).toMatchObject({ estimate: 25_000_000, paid: 2_000_000 });
    expect(totals.expected + (contingency?.left ?? 0)).toBe(25_000_000 + 6_250_000 - 40_000);
    expect(orders.map(({ number, amount }) => [number, amount])).toEqual([
      ['1', 150_000],
      ['2', -40_000],
    ]);
  });

  test('asks about a missing contingency, one under a quarter, one that is used up, and what is paid over the price', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    const says = async (): Promise<string> =>
      (await desk.ask('costs', {}, { lot })).findings.map(({ say }) => say).join(' ');
    await desk.ask('cost-line', { title: 'Framing', estimate: '10,000' }, { lot });
    expect(await says()).toMatch(/no contingency/);
    await desk.ask('cost-line', { title: 'Buffer', sort: 'contingency', estimate: '1,000' }, { lot });
    expect(await says()).toMatch(/contingency is 10 % of the estimated work; owners who build/);
    await desk.ask('cost-line', { row: 'Framing', agreed: '11,500' }, { lot });
    expect(await says()).toMatch(/used up: \$500 more/);
    await desk.ask('invoice', { line: 'Framing', payee: 'Framers', amount: '12,000', number: 'F-1' }, { lot });
    await desk.ask('payment', { invoice: 'F-1' }, { lot });
    expect(await says()).toMatch(/Framing: \$500 more is paid/);
  });

  test('sets the insured value against the finished value without the land', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await desk.ask('answer', { question: 'completed_value', answer: '486,000 usd' }, { lot });
    await desk.ask('answer', { question: 'land_value', answer: '62,000 usd' }, { lot });
    const papers = [
      {
        kind: 'builders-risk-policy',
        files: [await small.pdf('policy.pdf', ['Policy'])],
        facts: { insured_value: '400,000 usd' },
      },
    ];
    await desk.ask('keep', { papers }, { lot });
    const { value, findings } = await desk.ask('costs', {}, { lot });
    expect(value).toMatchObject({ withoutLand: 42_400_000, insured: 40_000_000, difference: -2_400_000 });
    expect(findings.map(({ say }) => say)).toContainEqual(expect.stringMatching(/\$24,000 short/));
  });

  test("counts the offices' fees that only the office knows", async () => {
    await using small = await openSmallLot();
    const { fees } = await small.desk.ask('costs', {}, { lot: small.lot });
    const way = await small.desk.ask('way', {}, { lot: small.lot });
    expect(fees.unknown).toBeGreaterThan(0);
    expect(fees.unknown).toBe(way.feesUnknown);
    expect(fees.rows.filter(({ fee, settled }) => fee === undefined && !settled).length).toBe(way.feesUnknown);
  });

  test('refuses what makes no sense, with a sentence, and keeps nothing of it', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    const refused = async (asking: Promise<unknown>, say: RegExp): Promise<void> => {
      await expect(asking).rejects.toThrow(say);
    };
    await refused(desk.ask('cost-line', { title: 'Roof', estimate: 'a lot' }, { lot }), /no amount of money/);
    await refused(desk.ask('cost-line', { title: 'Roof', estimate: '-5' }, { lot }), /less than nothing/);
    await refused(desk.ask('change-order', { line: 'Framing', amount: '0' }, { lot }), /changes nothing/);
    await refused(
      desk.ask('change-order', { line: 'Framing', amount: '5', fromContingency: true }, { lot }),
      /no contingency/,
    );
    await refused(
      desk.ask('invoice', { line: 'Framing', payee: 'F', amount: '5', held: '6' }, { lot }),
      /More is held back/,
    );
    await refused(desk.ask('invoice', { line: 'Roof', payee: 'F', amount: '5' }, { lot }), /No cost line/);
    await bill(small, { line: 'Framing', dollars: 100, day: '2026-04-10' });
    await refused(desk.ask('payment', { invoice: 'Framing firm', amount: '101' }, { lot }), /more than is open/);
    await refused(
      desk.ask('payment', { invoice: 'Framing firm', day: '2026-04-12', cleared: '2026-04-11' }, { lot }),
      /cleared/,
    );
    await refused(desk.ask('waiver', { invoice: 'Framing firm' }, { lot }), /conditional progress/);
    await refused(desk.ask('remove-cost', { what: 'cost-line', row: 'Framing' }, { lot }), /invoices rest on it/);
    const { rows, invoices } = await desk.ask('costs', {}, { lot });
    expect(rows).toHaveLength(6);
    expect(invoices.flatMap(({ payments }) => payments)).toEqual([]);
  });

  test('takes every kind of row away, and undo brings each back', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await twoDraws(small);
    const { subject } = await desk.ask(
      'engage',
      { firm: 'Alder Framing', trade: 'framing', from: '2026-04-01' },
      { lot },
    );
    await desk.ask('notice', { supplier: 'Tall Timber', firm: subject }, { lot });
    await desk.ask('change-order', { line: 'Framing', amount: '5' }, { lot });
    const before = await desk.ask('costs', {}, { lot });
    const [first] = before.invoices;
    const going = [
      ['draw', '2'],
      ['notice', 'Tall Timber'],
      ['change-order', '1'],
      ['waiver', first?.waivers[0]?.waiver ?? ''],
      ['payment', first?.payments[0]?.payment ?? ''],
      ['cost-line', 'Finishes'],
    ] as const;
    for (const [what, row] of going) await desk.ask('remove-cost', { what, row }, { lot });
    const without = await desk.ask('costs', {}, { lot });
    expect([without.draws.length, without.notices.length, without.orders.length, without.rows.length]).toEqual([
      1, 0, 0, 5,
    ]);
    for (const _ of going) await desk.ask('undo', {}, { lot });
    expect(await desk.ask('costs', {}, { lot })).toEqual(before);
  });
});

describe('a draw', () => {
  test('comes to what the worked example says, at 10 and at 5 percent held back', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await twoDraws(small);
    const check = await desk.ask('draw-check', { draw: '2' }, { lot });
    // The worked example in money-of-the-house.ts, computed by hand.
    expect(check.sums).toMatchObject({ completed: 11_050_000, retainage: 1_105_000, earned: 9_945_000 });
    expect(check.sums).toMatchObject({ previousPayments: 6_300_000, due: 3_645_000, balance: 15_055_000 });
    expect(check.findings.filter(({ weight }) => weight === 'refused')).toEqual([]);
    expect(check.wouldBeRefused).toBe(false);
    for (const row of ['1', '2']) await desk.ask('draw', { row, retainage: 5, storedRetainage: 5 }, { lot });
    await desk.ask('draw', { row: '1', paidAmount: '66,500' }, { lot });
    const { sums } = await desk.ask('draw-check', { draw: '2' }, { lot });
    expect(sums).toMatchObject({ retainage: 552_500, earned: 10_497_500, due: 3_847_500, balance: 14_502_500 });
  });

  test('is refused while an invoice, a payment or a waiver is missing, and says which', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    await desk.ask('draw', { day: '2026-05-15', work: { Framing: usd(5000) } }, { lot });
    const says = async (draw: string): Promise<readonly string[]> =>
      (await desk.ask('draw-check', { draw }, { lot })).findings.flatMap(({ weight, say }) =>
        weight === 'refused' ? [say] : [],
      );
    expect(await says('1')).toEqual([
      expect.stringMatching(/Framing: \$5,000 is asked for to date, and invoices show nothing/),
    ]);
    const invoice = await bill(small, { line: 'Framing', dollars: 5000, day: '2026-05-10' });
    expect(await says('1')).toEqual([expect.stringMatching(/No waiver from Framing firm/)]);
    await desk.ask('waiver', { invoice, kind: 'conditional progress', day: '2026-05-14' }, { lot });
    expect(await says('1')).toEqual([]);
    await desk.ask('draw', { row: '1', asked: '2026-05-15' }, { lot });

    await bill(small, { line: 'Framing', dollars: 1000, day: '2026-06-10', waivers: ['conditional progress'] });
    await desk.ask('draw', { day: '2026-06-15', work: { Framing: usd(1000) } }, { lot });
    expect(await says('2')).toEqual([
      expect.stringMatching(/of \$5,000 asked for with an earlier draw, \$0 is paid/),
      expect.stringMatching(/still conditional, and no cleared payment/),
    ]);
    await expect(desk.ask('draw', { row: '2', asked: '2026-06-15' }, { lot })).rejects.toThrow(
      /Draw 2 is not complete/,
    );
    expect((await desk.ask('costs', {}, { lot })).draws[1]).toMatchObject({ state: 'drawn up' });
    await desk.ask('payment', { invoice, day: '2026-06-01', cleared: '2026-06-03' }, { lot });
    expect(await says('2')).toEqual([]);
    const { findings } = await desk.ask('draw-check', { draw: '2' }, { lot });
    expect(findings.map(({ say }) => say)).toContainEqual(expect.stringMatching(/conditional; the payment cleared/));
    await desk.ask('draw', { row: '2', asked: '2026-06-15' }, { lot });
    expect((await desk.ask('costs', {}, { lot })).draws[1]).toMatchObject({ state: 'asked for' });
  });

  test('asked for it lies with the lender, paid its errand is settled; undo takes both back', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await desk.ask('answer', { question: 'lender', answer: 'yes' }, { lot });
    await estimate(small);
    await bill(small, { line: 'Framing', dollars: 5000, day: '2026-04-10', waivers: ['conditional progress'] });
    await desk.ask('draw', { day: '2026-04-11', work: { Framing: usd(5000) } }, { lot });
    const state = async (): Promise<string | undefined> => {
      const { errand } = await desk.ask('draw-check', { draw: '1' }, { lot });
      const { stops } = await desk.ask('way', {}, { lot });
      return stops.find((stop) => stop.errand === errand && stop.subject !== undefined)?.state;
    };
    const before = await state();
    await desk.ask('draw', { row: '1', asked: '2026-04-12' }, { lot });
    expect(await state()).toBe('left with them');
    await desk.ask('draw', { row: '1', paid: '2026-04-14' }, { lot });
    expect(await state()).toBe('settled');
    await desk.ask('undo', {}, { lot });
    await desk.ask('undo', {}, { lot });
    expect(await state()).toBe(before);
  });

  test('wants a waiver of every supplier who gave notice, and is asked for anyway only with the reason', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    const { subject } = await desk.ask(
      'engage',
      { firm: 'Alder Framing', trade: 'framing', from: '2026-05-01' },
      { lot },
    );
    const bought = { line: 'Framing', firm: subject, amount: usd(5000), day: '2026-05-10' } as const;
    const { row: invoice } = await desk.ask('invoice', bought, { lot });
    await desk.ask('waiver', { invoice, kind: 'conditional progress', day: '2026-05-11' }, { lot });
    const { row: notice } = await desk.ask(
      'notice',
      { supplier: 'Tall Timber', firm: subject, day: '2026-05-05' },
      { lot },
    );
    await desk.ask('draw', { day: '2026-05-15', work: { Framing: usd(5000) } }, { lot });
    const asked = desk.ask('draw', { row: '1', asked: '2026-05-15' }, { lot });
    await expect(asked).rejects.toThrow(/No waiver from Tall Timber \(supplies Alder Framing\)/);
    const anyway = 'The lender takes it a week later.';
    await desk.ask('draw', { row: '1', asked: '2026-05-15', anyway }, { lot });
    expect((await desk.ask('costs', {}, { lot })).draws[0]).toMatchObject({ state: 'asked for', anyway });
    await desk.ask('waiver', { invoice, notice, kind: 'conditional progress', day: '2026-05-12' }, { lot });
    expect((await desk.ask('draw-check', { draw: '1' }, { lot })).wouldBeRefused).toBe(false);
  });

  test('may not ask for more than a line is worth, nor from the contingency itself', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    await desk.ask('cost-line', { title: 'Contingency', sort: 'contingency', estimate: usd(1000) }, { lot });
    await desk.ask('draw', { day: '2026-05-15', work: { Framing: usd(62_001), Contingency: usd(10) } }, { lot });
    const { findings } = await desk.ask('draw-check', { draw: '1' }, { lot });
    const says = findings.map(({ say }) => say).join(' ');
    expect(says).toMatch(/Framing: \$62,001 asked for in all, and the line is \$62,000/);
    expect(says).toMatch(/\$10 from the contingency itself/);
  });

  test('the last one wants final waivers, everything paid, and releases what was held back', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await estimate(small);
    const paid = { paid: '2026-05-12', waivers: ['unconditional progress'] } as const;
    const invoice = await bill(small, { line: 'Framing', dollars: 62_000, day: '2026-05-10', ...paid });
    await desk.ask('draw', { day: '2026-05-15', work: { Framing: usd(62_000) }, retainage: 10 }, { lot });
    await desk.ask('draw', { row: '1', asked: '2026-05-15', paid: '2026-05-16' }, { lot });
    await desk.ask('draw', { day: '2026-09-01', final: true, retainage: 0, storedRetainage: 0 }, { lot });
    const check = await desk.ask('draw-check', { draw: '2' }, { lot });
    expect(check.sums.due).toBe(620_000);
    expect(check.findings.map(({ say }) => say)).toContainEqual(
      expect.stringMatching(/covers progress only; the last draw wants a final one/),
    );
    await desk.ask('waiver', { invoice, kind: 'unconditional final', day: '2026-08-30' }, { lot });
    expect((await desk.ask('draw-check', { draw: '2' }, { lot })).wouldBeRefused).toBe(false);
  });
});
