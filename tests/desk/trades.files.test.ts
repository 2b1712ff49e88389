import { describe, expect, test } from 'vitest';
import type { Day } from '../../core/vocabulary/days.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

async function engage({ desk, lot }: SmallLot, firm: string, from: string, to?: string): Promise<string> {
  const said = { firm, trade: 'framing', from, ...(to === undefined ? {} : { to }) };
  const { subject } = await desk.askUntyped('engage', said, { lot });
  return subject;
}

interface Certificate {
  readonly kind: string;
  readonly from?: string;
  readonly to: string;
  readonly number: string;
}

async function certificate(small: SmallLot, subject: string, { kind, from, to, number }: Certificate): Promise<void> {
  const facts = from === undefined ? {} : { cover_from: from, cover_to: to };
  const paper = { files: [], kind, subject, physicalOnly: true, issued: '2026-01-02', goodThrough: to, number, facts };
  await small.desk.askUntyped('keep', { papers: [paper] }, { lot: small.lot });
}

async function allThree(small: SmallLot, subject: string, from: string, to: string): Promise<void> {
  await certificate(small, subject, { kind: 'contractor-licence', to: '2027-12-31', number: `L ${from}` });
  await certificate(small, subject, { kind: 'liability-certificate', from, to, number: `GL ${from}` });
  await certificate(small, subject, { kind: 'compensation-certificate', from, to, number: `WC ${from}` });
}

describe('the firms and their cover', () => {
  test('who is on site without cover today is answered, and with all in hand nobody is', async () => {
    await using small = await openSmallLot();
    const subject = await engage(small, 'Alder Framing', '2026-04-01', '2026-06-30');
    const before = await small.desk.ask('trades', {}, small);
    expect(before.uncovered).toEqual([
      {
        subject,
        firm: 'Alder Framing',
        say: "Alder Framing (framing): no contractor licence, certificate of liability insurance and certificate of workers' compensation in hand for 1 Apr 2026 through 30 Jun 2026, 91 days.",
      },
    ]);
    await allThree(small, subject, '2026-02-01', '2027-02-01');
    const after = await small.desk.ask('trades', {}, small);
    expect(after.uncovered).toEqual([]);
    expect(after.rows[0]).toMatchObject({ onSite: true, ask: [] });
    expect(after.rows[0]?.cover.map(({ state }) => state)).toEqual(['covered', 'covered', 'covered']);
  });

  test('a gap in the middle and at the end is told to the day, and what to ask for with it', async () => {
    await using small = await openSmallLot();
    const subject = await engage(small, 'Alder Framing', '2026-03-01', '2026-06-30');
    await allThree(small, subject, '2026-02-01', '2026-04-19');
    await certificate(small, subject, {
      kind: 'liability-certificate',
      from: '2026-04-23',
      to: '2026-06-20',
      number: 'GL 2',
    });
    const { rows, uncovered, ahead } = await small.desk.ask('trades', {}, small);
    const liability = rows[0]?.cover.find(({ kind }) => kind === 'liability-certificate');
    expect(liability?.gaps.map(({ from, to, days }) => [from, to, days])).toEqual([
      ['2026-04-20', '2026-04-22', 3],
      ['2026-06-21', '2026-06-30', 10],
    ]);
    expect(uncovered).toEqual([]);
    expect(ahead[0]?.say).toContain('20 Apr 2026 through 22 Apr 2026, 3 days');
    expect(rows[0]?.ask).toContainEqual(
      "From 20 Apr 2026 through 30 Jun 2026: a new certificate of workers' compensation.",
    );
  });

  test('cover that ended while its firm works is to be put right first, on the day after as on every later one', async () => {
    await using small = await openSmallLot();
    const subject = await engage(small, 'Alder Framing', '2026-03-01', '2026-06-30');
    await allThree(small, subject, '2026-02-01', '2026-04-20');
    const ended = async (on: Day) => {
      const { amiss } = await small.desk.ask('today', {}, { ...small, on });
      return amiss.filter(({ kind, sort }) => kind === 'liability-certificate' && /^laps/.test(sort));
    };
    expect(await ended('2026-04-20')).toMatchObject([{ sort: 'lapsing', subject }]);
    const told = {
      subject,
      sort: 'lapsed',
      weight: 'questioned',
      say: '"Certificate of liability insurance" of Alder Framing ended on 20 Apr 2026.',
      why: 'Alder Framing is on site, and nothing in hand covers 21 Apr 2026 through 30 Jun 2026, 71 days.',
    };
    expect(await ended('2026-04-21')).toMatchObject([told]);
    expect(await ended('2026-06-30')).toMatchObject([told]);
    expect(await ended('2026-07-01')).toEqual([]);
    const late = await engage(small, 'Birch Siding', '2026-04-01');
    await certificate(small, late, {
      kind: 'liability-certificate',
      from: '2026-04-21',
      to: '2026-12-31',
      number: 'B',
    });
    const { amiss } = await small.desk.ask('today', {}, small);
    const says = amiss.filter(({ subject: whose }) => whose === late).map(({ say }) => say);
    expect(says.filter((say) => say.includes('liability'))).toHaveLength(1);
    expect(says.filter((say) => say.includes('not in hand'))).toEqual([
      '"Contractor licence" of Birch Siding is not in hand.',
      '"Certificate of workers\' compensation" of Birch Siding is not in hand.',
    ]);
  });

  test('the certificate of a firm on site is asked for still, though every errand that wanted it is settled', async () => {
    await using small = await openSmallLot();
    const subject = await engage(small, 'Alder Framing', '2026-03-01', '2026-06-30');
    await certificate(small, subject, { kind: 'liability-certificate', to: '2026-04-20', number: 'GL 1' });
    const certificateOn = async (on: Day) => {
      const { papers } = await small.desk.ask('papers', { kind: 'liability-certificate' }, { ...small, on });
      return papers.find((row) => row.paper !== undefined);
    };
    for (const { errand } of (await certificateOn('2026-04-21'))?.needFor ?? []) {
      await small.desk.ask('visit', { errand, state: 'settled', day: '2026-04-01' }, small);
    }
    const row = await certificateOn('2026-04-21');
    expect(row?.needFor.map(({ open }) => open)).toContain(false);
    expect(row?.needFor.map(({ open }) => open)).not.toContain(true);
    expect(row).toMatchObject({ state: 'lapsed', spent: false });
    expect(await certificateOn('2026-07-01')).toMatchObject({ state: 'lapsed', spent: true });
  });

  test('while no last day is noted, cover is asked for through today; without a first day nothing can be told', async () => {
    await using small = await openSmallLot();
    const subject = await engage(small, 'Alder Framing', '2026-03-01');
    await allThree(small, subject, '2026-02-01', '2026-04-14');
    const { desk, lot } = small;
    await desk.ask('engage', { firm: 'Later Roofing', trade: 'roofing' }, { lot });
    const { rows, uncovered } = await desk.ask('trades', {}, { lot, on: '2026-04-15' });
    expect(uncovered[0]?.say).toContain('for 15 Apr 2026.');
    const roofing = rows.find(({ firm }) => firm === 'Later Roofing');
    expect(roofing).toMatchObject({ onSite: false, ask: [expect.stringMatching(/On which day do they begin/)] });
    expect((await desk.ask('trades', {}, { lot, on: '2026-04-14' })).uncovered).toEqual([]);
  });

  test('what was revoked covers nothing from that day on, and what a firm does not need is said so', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    const subject = await engage(small, 'Alder Framing', '2026-04-01', '2026-04-30');
    await allThree(small, subject, '2026-02-01', '2027-02-01');
    await desk.ask(
      'standing',
      { edition: 'GL 2026-02-01', office: 'insurer', word: 'revoked', day: '2026-04-10' },
      { lot },
    );
    const { rows } = await desk.ask('trades', {}, { lot });
    const liability = rows[0]?.cover.find(({ kind }) => kind === 'liability-certificate');
    expect(liability?.gaps.map(({ from, to }) => [from, to])).toEqual([['2026-04-10', '2026-04-30']]);
    const paper = rows[0]?.cover.find(({ kind }) => kind === 'compensation-certificate')?.paper ?? '';
    await desk.ask('not-applicable', { paper, why: 'They have no employees.' }, { lot });
    const again = (await desk.ask('trades', {}, { lot })).rows[0]?.cover;
    expect(again?.find(({ kind }) => kind === 'compensation-certificate')).toMatchObject({
      state: 'not needed',
      gaps: [],
    });
  });

  test('a change of firm in the middle ends one the day before the other begins, as one act', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    await engage(small, 'Alder Framing', '2026-04-01', '2026-06-30');
    await desk.ask(
      'change-firm',
      { firm: 'Alder Framing', by: 'Birch Framing', day: '2026-05-04', until: '2026-07-10' },
      { lot },
    );
    const { rows } = await desk.ask('trades', {}, { lot });
    expect(rows.map(({ firm, from, to, after }) => [firm, from, to, after])).toEqual([
      ['Alder Framing', '2026-04-01', '2026-05-03', undefined],
      ['Birch Framing', '2026-05-04', '2026-07-10', 'Alder Framing'],
    ]);
    await desk.ask('undo', {}, { lot });
    expect((await desk.ask('trades', {}, { lot })).rows.map(({ firm, to }) => [firm, to])).toEqual([
      ['Alder Framing', '2026-06-30'],
    ]);
    const early = desk.ask('change-firm', { firm: 'Alder Framing', by: 'Birch Framing', day: '2026-03-01' }, { lot });
    await expect(early).rejects.toThrow(/can't hand over on 1 Mar 2026/);
  });
});

describe('comments by number', () => {
  test('bear a deadline, take the office’s numbers and their evidence, and can be taken away', async () => {
    await using small = await openSmallLot();
    const { desk, lot } = small;
    const comments = ['Where is the well?', 'Sign it.'];
    const sent = {
      errand: 'septic-apply',
      day: '2026-04-10',
      state: 'sent back',
      comments,
      due: '2026-05-10',
    } as const;
    await desk.ask('visit', sent, { lot });
    const back = async () => (await desk.ask('with-offices', {}, { lot })).offices[0]?.back[0]?.comments ?? [];
    const [first] = await back();
    expect(first).toMatchObject({ number: '1', due: '2026-05-10' });
    await desk.ask('comment', { row: first?.comment ?? '', number: 'EH-4', due: '2026-05-01' }, { lot });
    const { row } = await desk.ask('comment', { errand: 'septic-apply', text: 'Show the setback.' }, { lot });
    expect((await back()).map(({ number, due }) => [number, due])).toEqual([
      ['EH-4', '2026-05-01'],
      ['2', '2026-05-10'],
      ['3', undefined],
    ]);
    const { offices } = await desk.ask('with-offices', {}, { lot });
    expect(offices[0]?.clocks).toMatchObject([{ through: '2026-05-01', days: 17 }]);
    const survey = { files: [], kind: 'boundary-survey', physicalOnly: true, number: 'BS-1' };
    await desk.ask('keep', { papers: [survey] }, { lot });
    await desk.ask('answer-comment', { comment: first?.comment ?? '', text: 'Drawn.', evidence: 'BS-1' }, { lot });
    expect((await back())[0]).toMatchObject({
      answer: 'Drawn.',
      evidence: { title: expect.stringMatching(/survey/i) },
    });
    await desk.ask('remove-comment', { comment: row }, { lot });
    expect(await back()).toHaveLength(2);
    const twice = desk.ask('comment', { errand: 'septic-apply', number: 'EH-4', text: 'Again.' }, { lot });
    await expect(twice).rejects.toThrow(/a comment EH-4 on that visit already/);
  });
});
