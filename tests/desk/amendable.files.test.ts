import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { AmendableRow, RequestArgument } from '../../core/desk/door.ts';
import { errandRows, officeRows, paperRows } from '../../core/desk/features/amend-rows.ts';
import { commonLayers } from '../../core/desk/templates.ts';
import { figures } from '../../core/figures/index.ts';
import { officeWord, readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { openSmallLot } from './small-lot.ts';

type Value = RequestArgument<'clerk-said'>['value'];

const options = { figures: Object.keys(figures) };
const county = {
  name: 'brindlemoor.yaml',
  text: readFileSync(new URL('../../sample-project/practice/brindlemoor.yaml', import.meta.url), 'utf8'),
};
const layers = [...commonLayers(), county];

function allRows(practice: Practice): ReadonlyMap<string, AmendableRow> {
  const rows = [
    ...Object.values(practice.errands).flatMap((errand) => errandRows(errand, practice)),
    ...Object.values(practice.offices).flatMap(officeRows),
    ...Object.values(practice.papers).flatMap((kind) => paperRows(kind, practice)),
  ];
  return new Map(rows.map((row) => [row.rule, row]));
}

/** Something else than what stands, as a person could have been told it. */
function otherValue({ rule, sort, value, choices = [] }: AmendableRow): Value {
  switch (sort) {
    case 'count':
      return typeof value === 'number' ? value + 1 : 30;
    case 'money':
      return value === '1234.50 usd' ? 'free' : '1234.50 usd';
    case 'days':
      return value === '45 days' ? '2 months' : '45 days';
    case 'size':
      return value === '7 MB' ? '500 KB' : '7 MB';
    case 'yes or no':
      return value !== true;
    case 'choice':
      return choices.find((choice) => choice !== value) ?? '';
    case 'list':
      if (choices.length > 0)
        return choices.filter((choice) => !Array.isArray(value) || value.at(-1) !== choice).slice(0, 2);
      return [...(Array.isArray(value) ? value : []), 'in blue ink: no black'];
    case 'words':
      return /\.(intake_until|until)$/.test(rule) ? '14:30' : 'as "R. Amsel" says: 8 to 12';
  }
}

describe('what the clerk may have said otherwise', () => {
  // "What restarts the permit's clock?." was such a sentence.
  it('is said in sentences that end once', () => {
    const says = [...allRows(readPractice(layers, options)).values()].map(({ say }) => say);
    expect(says.some((say) => say.endsWith('?'))).toBe(true);
    expect(says.filter((say) => /[?!][,.]|\.\.|[^.?!]$/.test(say))).toEqual([]);
  });

  it('every rule shown takes another value, shows it then, and says on whose word', () => {
    const before = allRows(readPractice(layers, options));
    expect(before.size).toBeGreaterThan(1000);
    const said = [...before.values()].map((row) => ({ row, value: otherValue(row) }));
    const words = said.map(({ row, value }) =>
      officeWord({ target: row.rule, value, who: 'R. Amsel', day: '2026-04-02' }),
    );
    const after = allRows(readPractice([...layers, ...words], options));
    const untrue = said.flatMap(({ row, value }) => {
      const now = after.get(row.rule);
      const stands = JSON.stringify(now?.value) === JSON.stringify(value);
      const told = now?.basis === 'R. Amsel told you on 2 Apr 2026' && now.say !== row.say;
      return stands && told ? [] : [[row.rule, value, now?.value, now?.basis, now?.say]];
    });
    expect(untrue).toEqual([]);
  });

  it('every choice that is offered is one the practice takes', () => {
    const rows = [...allRows(readPractice(layers, options)).values()].filter(({ sort }) => sort === 'choice');
    for (const n of [0, 1, 2, 3, 4]) {
      const said = rows.flatMap(({ rule, choices = [] }) => {
        const value = choices[n];
        return value === undefined ? [] : [{ rule, value }];
      });
      const words = said.map(({ rule, value }) =>
        officeWord({ target: rule, value, who: 'C. Haldane', day: '2026-04-02' }),
      );
      const after = allRows(readPractice([...layers, ...words], options));
      expect(said.filter(({ rule, value }) => after.get(rule)?.value !== value)).toEqual([]);
    }
  });

  it('a rule’s present value can be said again as it is shown, and changes nothing', () => {
    const practice = readPractice(layers, options);
    const before = allRows(practice);
    const words = [...before.values()].flatMap(({ rule, value }) =>
      value === undefined ? [] : [officeWord({ target: rule, value, who: 'R. Amsel', day: '2026-04-02' })],
    );
    const after = allRows(readPractice([...layers, ...words], options));
    const changed = [...before.values()].filter(
      ({ rule, value, say }) => value !== undefined && after.get(rule)?.say !== say,
    );
    expect(changed.map(({ rule }) => rule)).toEqual([]);
  });

  it('through the desk: one rule of an errand, a paper and an office each', async () => {
    await using small = await openSmallLot();
    const { desk } = small;
    for (const about of [{ errand: 'permit-apply' }, { paper: 'septic-permit' }, { office: 'plan-review' }]) {
      const { rows, title } = await desk.ask('amendable', about, small);
      expect(title.length).toBeGreaterThan(5);
      const [row] = rows;
      if (row === undefined) throw new Error('No rule was shown.');
      await desk.ask('clerk-said', { rule: row.rule, value: otherValue(row), who: 'R. Amsel' }, small);
      const after = (await desk.ask('amendable', about, small)).rows.find(({ rule }) => rule === row.rule);
      expect(after).toMatchObject({ value: otherValue(row), basis: 'R. Amsel told you on 14 Apr 2026' });
    }
    // An inspection other places hold comes in by one word, and goes by one.
    const deck = 'roof-deck-inspect';
    const held = async (): Promise<AmendableRow['value']> =>
      (await desk.ask('amendable', { errand: deck }, small)).rows.find(({ rule }) => rule.endsWith('.exists'))?.value;
    expect(await held()).toBe(false);
    await desk.ask('clerk-said', { rule: `errands.${deck}.exists`, value: true, who: 'R. Amsel' }, small);
    expect(await held()).toBe(true);
    await expect(desk.ask('amendable', {}, small)).rejects.toMatchObject({ code: 'wrong use' });
    await expect(desk.ask('amendable', { office: 'no-such' }, small)).rejects.toMatchObject({ code: 'wrong use' });
  });
});
