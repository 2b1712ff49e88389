import { describe, expect, it } from 'vitest';
import { checkPractice } from '../../core/practice/index.ts';
import { lineOf } from './small-county.ts';

const offices = 'offices: {desk: {sort: building}, me: {sort: owner}}\n';

function problemsOf(text: string): readonly string[] {
  return checkPractice([{ name: 'l.yaml', text }]).problems.map((one) => `${one.line}: ${one.sentence}`);
}

const circle = `${offices}papers:
  address: {from: desk}
  permit: {from: desk}
  drive: {from: desk}
errands:
  look: {office: desk}
  permit-apply: {office: desk, needs: {address: }, yields: [permit]}
  address-apply: {office: desk, needs: {drive: }, yields: [address]}
  drive-apply: {office: desk, needs: {permit: }, yields: [drive]}
  finish: {office: desk, needs: {permit: }}
`;

describe('errands that wait for each other', () => {
  it('are told with all members, and why each waits, on the line of the first', () => {
    expect(problemsOf(circle)).toEqual([
      `${lineOf('permit-apply:', circle)}: These errands wait for each other, so none of them could be the first: ` +
        'permit-apply waits for address-apply (for address); address-apply waits for drive-apply (for drive); ' +
        'drive-apply waits for permit-apply (for permit).',
    ]);
  });

  it('are no loop once applying and picking up are two errands', () => {
    const text = circle
      .replace('needs: {address: }, yields: [permit]}', 'yields: [permit]}')
      .replace('finish: {office: desk, needs: {permit: }}', 'pick-up: {office: desk, needs: {address: , permit: }}');
    expect(problemsOf(text)).toEqual([]);
  });

  it('are no loop where another paper would do, and the other can be had', () => {
    const text = circle
      .replace('drive: {from: desk}', 'drive: {from: desk}\n  letter: {from: me}')
      .replace('needs: {address: }', 'needs: {place: {any_of: [address, letter]}}');
    expect(problemsOf(text)).toEqual([]);
  });

  it('are no loop where the paper is only good to have', () => {
    expect(problemsOf(circle.replace('{address: }', '{address: {optional: yes}}'))).toEqual([]);
  });

  it('are a loop through "before" rules and the events errands amount to', () => {
    const text = `${offices}events: {recorded: }
errands:
  close: {office: desk, causes: [recorded], before: [dig]}
  dig: {office: desk, before: [recorded]}
`;
    expect(problemsOf(text)).toEqual([
      '4: These errands wait for each other, so none of them could be the first: ' +
        'close waits for dig (it comes before); dig waits for close (for the event recorded).',
    ]);
  });

  it('an event no errand amounts to is simply waited for', () => {
    const text = `${offices}events: {rain: }\nerrands: {dig: {office: desk, before: [rain]}}\n`;
    expect(problemsOf(text)).toEqual([]);
  });

  it('an errand that needs its own yield is a loop of one', () => {
    const text = `${offices}papers: {card: {from: desk}}\nerrands: {go: {office: desk, needs: {card: }, yields: [card]}}\n`;
    expect(problemsOf(text)[0]).toContain('go waits for go (for card).');
  });
});
