import { expect, it } from 'vitest';
import { toldOf } from '../../core/desk/features/local-practice.ts';
import { common } from '../intake/reading/written.ts';

const name = 'word of 2026-04-02, errands.permit-apply.needs.plans.copies is 3';

// Fixed bug: of what offices said in their own words before changes were kept beside it, only the value was shown.
it('a word noted before its change was kept beside it still says all they said', () => {
  const { change, remark } = toldOf({ name, text: '' }, 'Three since June; ask for Dell', common);
  expect(change.now).toBe('3');
  expect(remark).toBe('Three since June; ask for Dell');
  expect(toldOf({ name, text: '' }, `${change.rule}: 3`, common).remark).toBeUndefined();
});

it('a word with its change beside it says more only where they did', () => {
  const kept = { rule: 'House plans, Copies', was: '2', now: '3' };
  expect(toldOf({ name, text: '', change: kept, remark: 'ask for Dell' }, 'x', common)).toEqual({
    change: kept,
    remark: 'ask for Dell',
  });
  expect(toldOf({ name, text: '', change: kept }, 'x', common).remark).toBeUndefined();
});
