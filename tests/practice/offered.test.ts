import { describe, expect, it } from 'vitest';
import { checkPractice, officeWord, readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { errandOf, needOf } from './common-layers.ts';

const desk = `basis: common practice
offices: {desk: {sort: building}, me: {sort: owner}}
events: {covered: , walled: }
papers:
  rough: {from: desk, facts: {inspected: day}}
  wires: {from: desk, facts: {inspected: day}}
  picture: {from: me}
  sketch: {from: me}
errands:
  rough-look: {office: desk, inspection: yes, yields: [rough]}
  wire-look:
    office: desk
    inspection: yes
    exists: no
    needs: {sketch: }
    yields: [wires, picture]
  frame-look:
    office: desk
    needs: {rough: {use: show}, wires: {use: show}, either: {any_of: [wires, rough]}}
    before: [wire-look]
agreements:
  wires-first: {say: Wires come first, not_before: [rough.inspected, wires.inspected]}
holds:
  cover: {event: covered, until: [rough-look, wire-look], say: Look first.}
  wall: {event: walled, until: [wire-look], say: Look first.}
`;

function read(more = ''): Practice {
  return readPractice([
    { name: 'desk.yaml', text: desk },
    { name: 'here.yaml', text: more },
  ]);
}

describe('an errand that is offered and not wanted here', () => {
  it('falls away with its paper and everything that hangs on it alone', () => {
    const practice = read();
    expect(Object.keys(practice.errands)).toEqual(['rough-look', 'frame-look']);
    expect(Object.keys(practice.papers)).toEqual(['rough', 'picture', 'sketch']);
    expect(errandOf(practice, 'frame-look').needs.map(({ id, kinds }) => [id, kinds])).toEqual([
      ['rough', ['rough']],
      ['either', ['rough']],
    ]);
    expect(errandOf(practice, 'frame-look').before).toEqual([]);
    expect(practice.agreements).toEqual({});
    expect(Object.values(practice.holds).map(({ id, until }) => [id, until])).toEqual([['cover', ['rough-look']]]);
  });

  it('stands ready with all its own rules', () => {
    expect(read().offered?.['wire-look']).toMatchObject({ yields: ['wires', 'picture'], inspection: true });
  });

  it('comes in with one word, and on whose word', () => {
    const practice = read('basis: {told by: Ann, on: 2026-04-02}\nerrands: {wire-look: {exists: yes}}\n');
    expect(errandOf(practice, 'wire-look').basis).toEqual({ on: 'the office told us', who: 'Ann', day: '2026-04-02' });
    expect(needOf(practice, 'frame-look', 'wires').kinds).toEqual(['wires']);
    expect(Object.keys(practice.agreements)).toEqual(['wires-first']);
    expect(practice.holds.cover?.until).toEqual(['rough-look', 'wire-look']);
    expect(practice.offered).toBeUndefined();
  });

  it('one may take the place of another', () => {
    const practice = read('errands: {wire-look: {exists: yes}, rough-look: {exists: no}}\n');
    expect(errandOf(practice, 'frame-look').needs.map(({ id, kinds }) => [id, kinds])).toEqual([
      ['wires', ['wires']],
      ['either', ['wires']],
    ]);
    expect(practice.holds.cover?.until).toEqual(['wire-look']);
  });

  it('is brought in by an office’s word as well', () => {
    const word = officeWord({ target: 'errands.wire-look.exists', value: true, who: 'Ann', day: '2026-04-02' }, read());
    const practice = readPractice([{ name: 'desk.yaml', text: desk }, word]);
    expect(Object.keys(practice.errands)).toContain('wire-look');
  });

  it('is checked all the same: a mistake in it is told before anybody wants it', () => {
    const text = desk.replace('needs: {sketch: }', 'needs: {sketch: {facts: [wall]}}');
    expect(checkPractice([{ name: 'desk.yaml', text }]).problems[0]?.sentence).toContain('wants the fact "wall"');
  });
});

describe('what an inspection says of itself', () => {
  it('the site kit, the booking, the fee of coming again and the words of its outcome are carried', () => {
    const practice = read(
      'errands: {rough-look: {on_site: [stamped set], book: {ahead: 1 working day, until: "14:00"}, again_fee: 75 usd, outcomes: [pass, partial], after_target: yes}}\n',
    );
    expect(errandOf(practice, 'rough-look')).toMatchObject({
      onSite: ['stamped set'],
      book: { ahead: { workingDays: 1 }, until: '14:00' },
      againFee: 7500,
      outcomes: ['pass', 'partial'],
      afterTarget: true,
    });
    expect(errandOf(read('errands: {rough-look: {book: 2 days}}\n'), 'rough-look').book).toEqual({
      ahead: { days: 2 },
    });
  });

  it('common practice may say what it is taken from, and stays common practice', () => {
    const basis = 'basis: {common practice: "IRC R109.1.2 as adopted in Bluefield, West Virginia", read: 2026-11-24}';
    expect(errandOf(read(`errands: {rough-look: {fee: free, ${basis}}}\n`), 'rough-look').basis).toEqual({
      on: 'common practice',
      after: 'IRC R109.1.2 as adopted in Bluefield, West Virginia',
      read: '2026-11-24',
    });
    const unread = read('errands: {rough-look: {fee: free, basis: {common practice: "from memory"}}}\n');
    expect(errandOf(unread, 'rough-look').basis).toEqual({ on: 'common practice', after: 'from memory' });
  });
});
