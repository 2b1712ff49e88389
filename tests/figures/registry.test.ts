import { describe, expect, test } from 'vitest';
import { type Figure, figures } from '../../core/figures/index.ts';

const day = '2026-04-14' as const;

function named(id: string): Figure {
  const found = Object.entries(figures).find(([key]) => key === id);
  if (found === undefined) throw new Error(`There is no figure ${id}.`);
  return found[1];
}

describe('the figures a practice file may name', () => {
  test('all say what they are, where they come from and what they do not say', () => {
    expect(Object.keys(figures).length).toBeGreaterThan(12);
    for (const [id, figure] of Object.entries(figures)) {
      expect(figure.id).toBe(id);
      for (const words of [figure.title, figure.unit, figure.source, figure.caution])
        expect(words.length).toBeGreaterThan(3);
    }
  });

  test('all answer "unknown" where nothing is known, and never guess', () => {
    for (const figure of Object.values(figures)) {
      if (figure.id !== 'today') expect(figure.compute({}, { day })).toBe('unknown');
    }
  });

  test('air changes from the facts of a report', () => {
    const args = { flow: { sort: 'flow', value: 1000 }, volume: { sort: 'volume', value: 9600 } } as const;
    expect(named('air_changes').compute(args, { day })).toEqual({ sort: 'number', value: 6.25 });
  });

  test('a climate zone is read with its letter', () => {
    expect(named('air_changes_limit').compute({ zone: { sort: 'text', value: '2A' } }, { day })).toEqual({
      sort: 'number',
      value: 5,
    });
    expect(named('air_changes_limit').compute({ zone: { sort: 'text', value: '4' } }, { day })).toEqual({
      sort: 'number',
      value: 3,
    });
  });

  test('required cover is the finished value without the land, times the percent', () => {
    const args = {
      completed: { sort: 'money', value: 40_000_000 },
      land: { sort: 'money', value: 6_000_000 },
      percent: { sort: 'percent', value: 80 },
    } as const;
    expect(named('required_cover').compute(args, { day })).toEqual({ sort: 'money', value: 27_200_000 });
    expect(named('value_without_land').compute(args, { day })).toEqual({ sort: 'money', value: 34_000_000 });
  });

  test('land worth more than the whole gives no answer', () => {
    const args = { completed: { sort: 'money', value: 100 }, land: { sort: 'money', value: 200 } } as const;
    expect(named('value_without_land').compute(args, { day })).toBe('unknown');
  });

  test('the level with freeboard keeps the datum of the base flood level', () => {
    const args = {
      base: { sort: 'elevation', value: { feet: 8, datum: 'NAVD 88' } },
      freeboard: { sort: 'length', value: 1.5 },
    } as const;
    expect(named('freeboard_level').compute(args, { day })).toEqual({
      sort: 'elevation',
      value: { feet: 9.5, datum: 'NAVD 88' },
    });
  });

  test('a firm still on site has to be covered to the day asked about', () => {
    const subject = { id: 's', sort: 'engagement', title: 'Framing', from: '2026-04-01' } as const;
    expect(named('on_site_to').compute({}, { day, subject })).toEqual({ sort: 'day', value: day });
    expect(named('on_site_from').compute({}, { day, subject })).toEqual({ sort: 'day', value: '2026-04-01' });
  });
});
