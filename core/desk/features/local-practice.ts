import { figures } from '../../figures/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { acted } from './record-card.ts';

/** The office a rule belongs to: the errand's, the paper's issuer, or the office itself. */
function officeOf(practice: Practice, rule: string): string {
  const [room, id = ''] = rule.split('.');
  if (room === 'errands') return practice.errands[id]?.office ?? '';
  if (room === 'papers') return practice.papers[id]?.from ?? '';
  return room === 'offices' ? id : '';
}

/** "The clerk said otherwise": one rule amended, on the word of a named person, on a day. */
export const clerkSaid = onLot(requests['clerk-said'], async ({ rule, value, who, day, note }, at) => {
  const { officeWord, readPractice } = await import('../../practice/index.ts');
  const layers = at.lot.layers();
  const said = day ?? at.day;
  const layer = officeWord(
    { target: rule, value, who, day: said, ...(note === undefined ? {} : { note }) },
    at.lot.practice(),
  );
  const all = [...layers, layer];
  const practice = readPractice(all, { figures: Object.keys(figures) });
  const office = officeOf(practice, rule);
  if (office === '') {
    throw new LotfileError('wrong use', `"${rule}" belongs to no office.`, {
      next: 'Name a rule of an errand, a paper or an office, for example errands.permit-apply.needs.plans.copies.',
    });
  }
  return acted(at, `${who} said: ${rule} is ${String(value)}`, () => {
    at.lot.addOfficeWord({ office, who, day: said, said: note ?? `${rule} is ${String(value)}`, layer });
    at.lot.setPractice({ practice, layers: all });
  });
});

export const practice = onLot(requests.practice, (_input, { lot }) => ({
  practice: lot.practice(),
  layers: lot.layers().map(({ name }) => name),
}));
