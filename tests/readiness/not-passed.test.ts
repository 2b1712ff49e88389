import { describe, expect, test } from 'vitest';
import { readErrand } from '../../core/readiness/index.ts';
import type { Visit } from '../../core/vocabulary/lot.ts';
import { d, edition, errand, kind, lot, need, paper, practice, visit } from './making.ts';

const day = d('2026-09-16');

describe('a result in hand that did not pass', () => {
  const rules = practice({
    papers: [
      kind('framing-result', { facts: { result: { id: 'result', sort: 'text', title: 'Result' } } }),
      kind('next'),
    ],
    errands: [
      errand('framing', { inspection: true, yields: ['framing-result'] }),
      errand('insulation', { inspection: true, yields: ['next'], needs: [need('framing-result', { use: 'show' })] }),
    ],
  });
  const reading = (result: string, visits: readonly Visit[] = []) => {
    const said = edition('r', { issued: d('2026-09-10'), facts: { result: { sort: 'text', value: result } } });
    const view = lot({ papers: [paper('framing-result', [said])], visits });
    return readErrand('insulation', { practice: rules, lot: view, day });
  };

  test('opens nothing: the next inspection would be a trip for nothing', () => {
    const { state, findings } = reading('not passed');
    expect(state).toBe("can't go yet");
    expect(findings).toMatchObject([{ sort: 'refused by office', kind: 'framing-result', weight: 'refused' }]);
    expect(findings[0]?.say).toBe('"The framing-result" of 10 Sep 2026 says "not passed".');
    expect(findings[0]?.remedy.errand).toBe('framing');
  });

  test('is no hindrance once a passed one is in hand, nor where nobody entered what it says', () => {
    expect(reading('passed').state).toBe('can go');
    expect(reading('see sheet 2').state).toBe('can go');
  });

  test('is over once they came again and passed it, though only the first report was kept', () => {
    const again = [visit('framing', d('2026-09-15'), { outcome: 'pass' })];
    expect(reading('not passed', again).state).toBe('can go');
  });

  test('is over area by area: one that passed waits for no other', () => {
    const result = { id: 'result', sort: 'text', title: 'Result' } as const;
    const byArea = practice({
      papers: [kind('framing-result', { each: 'area', facts: { result } }), kind('next')],
      errands: [
        errand('framing', { inspection: true, each: 'area', yields: ['framing-result'] }),
        errand('insulation', { inspection: true, each: 'area', needs: [need('framing-result', { each: 'area' })] }),
      ],
    });
    const said = edition('r', {
      issued: d('2026-09-10'),
      facts: { result: { sort: 'text', value: 'not passed' } },
    });
    const view = lot({
      subjects: ['east', 'west'].map((id) => ({ id, sort: 'area', title: id })),
      papers: [paper('framing-result', [said], { subject: 'east' })],
      visits: [visit('framing', d('2026-09-15'), { outcome: 'pass', subject: 'east' })],
    });
    const state = (subject: string) => readErrand('insulation', { practice: byArea, lot: view, day, subject }).state;
    expect([state('east'), state('west')]).toEqual(['can go', "can't go yet"]);
  });
});
