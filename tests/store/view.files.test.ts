import { expect, test } from 'vitest';
import { type Lot, openLot } from '../../core/store/index.ts';
import { edition, keepFile, keepPermit, newLot, open, page } from './lot-in-folder.ts';

/** What a program that has read nothing yet sees. */
function fresh(lot: Lot) {
  using other = openLot(lot.folder, { ...open, readOnly: true });
  return other.view();
}

test('the view read piece by piece after each act is the one read whole, undone acts and removed files included', async () => {
  const lot = newLot();
  const seen = () => {
    const view = lot.view();
    expect(view).toEqual(fresh(lot));
    return view;
  };
  seen();
  const permit = await keepPermit(lot);
  seen();
  const deed = await keepFile(lot, 'deed.pdf', [page(0, 'Deed')]);
  const second = lot.keepEdition(edition(deed, { kind: 'deed', title: 'Deed' }));
  const before = seen().papers;
  lot.answer('sewage', { sort: 'choice', value: 'septic' });
  expect(seen().papers).toBe(before);
  lot.setMarks(second.edition, ['signed']);
  expect(seen().papers[0]).toBe(before[0]);
  lot.setFacts(second.edition, [{ fact: 'parcel', value: { sort: 'text', value: '041' } }]);
  lot.recordStanding(permit.edition, { office: 'plan-review', word: 'approved', day: '2026-04-14' });
  seen();
  lot.correctEdition(second.edition, { number: 'D-1', issued: '2026-02-02' });
  lot.linkEditions(second.edition, [{ word: 'made from', to: permit.edition }]);
  lot.setPaperTitle(second.paper, 'Warranty deed');
  seen();
  lot.undo();
  lot.undo();
  seen();
  lot.act('Both, looked at in between', () => {
    lot.setMarks(permit.edition, []);
    expect(lot.view().papers[0]?.editions[0]?.marks).toEqual([]);
    lot.setNotApplicable({ kind: 'septic-permit', title: 'Septic permit' }, 'none here');
  });
  seen();
  expect(() =>
    lot.act('Fails', () => {
      lot.setMarks(permit.edition, ['signed']);
      lot.view();
      throw new Error('no');
    }),
  ).toThrow('no');
  expect(seen().papers[0]?.editions[0]?.marks).toEqual([]);
  await lot.purge([permit.files.original], { reason: 'private' });
  seen();
  await keepFile(lot, 'septic scan.pdf', [page(0, 'one'), page(1, 'two')]);
  expect(seen().papers[0]?.editions[0]?.readable).toBe(true);
});
