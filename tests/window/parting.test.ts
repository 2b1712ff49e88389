import { afterEach, describe, expect, it } from 'vitest';
import type { TableItem } from '../../core/desk/contract/screen-answers.ts';
import { cutsLeft, withKept } from '../../renderer/screens/table/cuts-left.ts';
import { askAgain, asOnePaper, nextPart, partingOf, turnToPart } from '../../renderer/screens/table/parting.ts';
import { type Draft, emptyDraft, tableOf, useTable } from '../../renderer/screens/table/table-state.ts';

const tray: TableItem = {
  item: 'tray.pdf',
  ticket: 't-1',
  name: 'tray.pdf',
  bytes: 9000,
  since: '2026-07-15T08:00:00.000Z',
  sort: 'pdf',
  arriving: false,
  keptPages: [],
  suggested: {
    kinds: [],
    facts: {},
    pages: 4,
    blank: [],
    notes: [],
    cuts: [
      { pages: '1-2', kind: 'septic-permit', title: 'Septic permit' },
      { pages: '3', kind: 'driveway-permit', title: 'Driveway permit' },
      { pages: '4', title: 'A paper' },
    ],
  },
};

const card = (): Draft => useTable.getState().drafts['tray.pdf'] ?? emptyDraft(['tray.pdf']);
const fill = (change: Partial<Draft>): void => useTable.setState({ drafts: { 'tray.pdf': { ...card(), ...change } } });
const onCard = (item = tray) => ({ id: 'tray.pdf', draft: card(), item });

function turnTo(part: number, item = tray): void {
  const cut = cutsLeft(item)[part];
  if (cut === undefined) throw new Error(`no part ${part}`);
  turnToPart(onCard(item), cut);
}

afterEach(() => {
  useTable.setState({ lot: 'another' });
  tableOf(undefined);
});

describe('a scan that is kept part by part', () => {
  it('takes nothing of one part over to the next but how it is turned and opened, and gives it back', () => {
    turnTo(0);
    const first: Partial<Draft> = {
      number: 'EH-26-0417',
      issued: '2026-03-02',
      facts: { a: 'b' },
      marks: ['sealed'],
      goodThrough: '2027-03-02',
    };
    fill({ ...first, turns: { 'tray.pdf': 90 }, password: 'open' });
    turnTo(2);
    expect(card()).toEqual({
      ...emptyDraft(['tray.pdf']),
      turns: { 'tray.pdf': 90 },
      password: 'open',
      part: '4',
      picks: { 'tray.pdf': '4' },
    });
    fill({ kind: 'deed' });
    turnTo(0);
    expect(card()).toMatchObject({ ...first, kind: 'septic-permit', picks: { 'tray.pdf': '1-2' } });
    turnTo(2);
    expect(card().kind).toBe('deed');
  });

  it('goes on after a keeping with the next part, as far as it was filled in, and with none of what was kept', () => {
    turnTo(1);
    fill({ number: 'DW-118' });
    turnTo(0);
    fill({ number: 'EH-26-0417', picks: { 'tray.pdf': '1' } });
    const rest = nextPart(card(), [tray]);
    expect(rest).toMatchObject({ part: '1-2', number: '', picks: { 'tray.pdf': '2' } });
    expect(nextPart({ ...card(), picks: { 'tray.pdf': '1-2' } }, [tray])).toMatchObject({
      part: '3',
      number: 'DW-118',
    });
    expect(nextPart({ ...card(), picks: {} }, [tray])).toBeUndefined();
    expect(nextPart({ ...card(), leaveRest: true }, [tray])).toBeUndefined();
  });

  it('is one paper with all its pages as it was filled in before, or with those that are left; and there is a way back', () => {
    fill({ number: 'as a whole' });
    turnTo(0);
    asOnePaper(onCard());
    expect(card()).toMatchObject({ number: 'as a whole', picks: {} });
    const kept = { ...withKept(tray, '1-2'), leftPages: '3-4' };
    turnTo(0, kept);
    asOnePaper(onCard(kept));
    expect(card()).toMatchObject({ part: undefined, kind: 'driveway-permit', picks: { 'tray.pdf': '3-4' } });
    expect(useTable.getState().pointed).toEqual({ page: 2 });
    askAgain(kept);
    expect(partingOf(useTable.getState(), kept)?.how).toBeUndefined();
  });

  it('is forgotten with the file: the next one of its name is not parted unasked', () => {
    turnTo(0);
    expect(partingOf(useTable.getState(), tray)?.how).toBe('one by one');
    const next = { ...tray, since: '2026-07-16T08:00:00.000Z' };
    expect(partingOf(useTable.getState(), next)).toBeUndefined();
    expect(nextPart(card(), [next])).toBeUndefined();
  });

  // Fixed bug: the page left behind a kept one was still called the kind that stood on the kept one, Keep lit.
  it('takes the pages behind a kept first one for no kind anybody has read, and pages before a kept last one for the same', () => {
    const behind = cutsLeft(withKept(tray, '1'))[0];
    expect(behind).toEqual({ part: '1-2', pages: '2', kind: undefined, title: 'A paper', because: undefined });
    expect(cutsLeft(withKept(tray, '2'))[0]).toMatchObject({
      pages: '1',
      kind: 'septic-permit',
      title: 'Septic permit',
    });
  });

  it('is not offered for parting where it is kept as a whole already', () => {
    expect(cutsLeft(tray)).toHaveLength(3);
    expect(cutsLeft({ ...tray, already: 'Septic permit' })).toEqual([]);
  });
});
