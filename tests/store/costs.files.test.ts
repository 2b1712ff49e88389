import { describe, expect, test } from 'vitest';
import { openLot } from '../../core/store/index.ts';
import { newLot, open, told } from './lot-in-folder.ts';

type NewLot = ReturnType<typeof newLot>;

function framing(lot: NewLot): string {
  return lot.putCostLine({ sort: 'work', title: 'Framing', trade: 'framing', estimate: 62_000_00, agreed: undefined });
}

function invoiceOn(lot: NewLot, line: string): string {
  return lot.putInvoice({ line, payee: 'Quillfeather Framing', day: '2026-08-01', amount: 20_000_00, held: 0 });
}

describe('the money of the house', () => {
  test('is kept with its rows in order and is the same after the lot is opened again', () => {
    const lot = newLot();
    const line = framing(lot);
    const firm = lot.addSubject({ sort: 'engagement', title: 'Quillfeather Framing, framing', trade: 'framing' });
    const invoice = invoiceOn(lot, line);
    lot.putChangeOrder({ line, number: '1', title: 'Porch', day: '2026-08-02', amount: -50_00, fromContingency: true });
    lot.putPayment({ invoice, day: '2026-08-10', amount: 20_000_00, how: 'cheque 118', cleared: '2026-08-12' });
    const notice = lot.putNotice({ supplier: 'Alder Lumber', subject: firm, day: '2026-07-20' });
    for (const kind of ['conditional progress', 'unconditional final'] as const) {
      lot.putWaiver({ invoice, notice, kind, day: '2026-08-11', through: '2026-07-31', amount: 20_000_00 });
    }
    const sums = { workRate: 1000, storedRate: 500, final: false, lines: [{ line, work: 20_000_00, stored: 350_00 }] };
    lot.putDraw({ number: 1, day: '2026-08-15', ...sums });
    const before = lot.costs();
    expect(before.waivers.map(({ kind }) => kind)).toEqual(['conditional progress', 'unconditional final']);
    expect(before.changeOrders).toMatchObject([{ amount: -50_00, fromContingency: true }]);
    expect(before.draws).toMatchObject([{ number: 1, ...sums }]);
    expect(lot.view().subjects.find(({ sort }) => sort === 'draw')?.title).toBe('Draw 1');
    const { folder } = lot;
    lot.close();
    const again = openLot(folder, open);
    expect(again.costs()).toEqual(before);
    again.close();
  });

  test('is changed by its id, and every change can be undone', () => {
    const lot = newLot();
    const line = framing(lot);
    lot.putCostLine({ id: line, sort: 'work', title: 'Framing and porch', estimate: 64_000_00, agreed: 63_500_00 });
    expect(lot.costs().lines).toEqual([
      { id: line, sort: 'work', title: 'Framing and porch', estimate: 64_000_00, agreed: 63_500_00 },
    ]);
    lot.undo();
    expect(lot.costs().lines).toMatchObject([{ title: 'Framing', trade: 'framing', estimate: 62_000_00 }]);
    lot.removeCost('cost_line', line);
    expect(lot.costs().lines).toEqual([]);
    lot.undo();
    expect(lot.costs().lines).toHaveLength(1);
  });

  test('a draw can be taken away with its lines and its subject, and comes back whole', () => {
    const lot = newLot();
    const line = framing(lot);
    const asked = { workRate: 1000, storedRate: 1000, final: false };
    const draw = lot.putDraw({ number: 1, day: '2026-08-15', ...asked, lines: [{ line, work: 100, stored: 0 }] });
    const before = lot.costs().draws;
    lot.removeCost('draw', draw);
    expect(lot.view().subjects).toEqual([]);
    lot.undo();
    expect(lot.costs().draws).toEqual(before);
    lot.putDraw({ id: draw, number: 1, day: '2026-08-16', ...asked, lines: [{ line, work: 0, stored: 0 }] });
    expect(lot.costs().draws).toMatchObject([{ day: '2026-08-16', lines: [] }]);
  });

  test('what others rest on stays, and it is said what rests on it', () => {
    const lot = newLot();
    const line = framing(lot);
    const invoice = invoiceOn(lot, line);
    lot.putPayment({ invoice, day: '2026-08-10', amount: 1, how: 'cheque' });
    expect(() => lot.removeCost('cost_line', line)).toThrow(
      expect.objectContaining(told('conflict', /invoices rest on it/)),
    );
    expect(() => lot.removeCost('invoice', invoice)).toThrow(
      expect.objectContaining(told('conflict', /payments rest on it/)),
    );
    expect(lot.costs().invoices).toHaveLength(1);
  });

  test('a second contingency, an unknown line and an unknown id are refused with a sentence', () => {
    const lot = newLot();
    lot.putCostLine({ sort: 'contingency', title: 'Contingency', estimate: 1 });
    expect(() => lot.putCostLine({ sort: 'contingency', title: 'More', estimate: 1 })).toThrow(
      expect.objectContaining(told('wrong use', /a contingency already/)),
    );
    expect(() => invoiceOn(lot, 'c-none')).toThrow(expect.objectContaining(told('not found', /no such cost line/)));
    expect(() => lot.removeCost('waiver', 'w-none')).toThrow(
      expect.objectContaining(told('not found', /no such waiver/)),
    );
  });
});

describe('what more is known of a comment', () => {
  test('its deadline and closing evidence are kept, changed and undone; the answer keeps them', () => {
    const lot = newLot();
    const visit = lot.recordVisit({ errand: 'permit-apply', day: '2026-04-14', state: 'sent back' });
    const comment = lot.addComment({ visit, number: 'S-3', text: 'Show the holdown.', due: '2026-05-14' });
    lot.answerComment(comment, { text: 'Sheet S2, revision C.', day: '2026-04-20' });
    expect(lot.comments(visit)).toMatchObject([{ number: 'S-3', due: '2026-05-14', answered: '2026-04-20' }]);
    lot.changeComment(comment, { due: null, number: 'S-4' });
    expect(lot.comments(visit)[0]).toMatchObject({ number: 'S-4', due: undefined, answer: 'Sheet S2, revision C.' });
    lot.undo();
    expect(lot.comments(visit)[0]).toMatchObject({ number: 'S-3', due: '2026-05-14' });
    lot.removeComment(comment);
    expect(lot.comments(visit)).toEqual([]);
    lot.undo();
    expect(lot.comments(visit)).toHaveLength(1);
  });
});
