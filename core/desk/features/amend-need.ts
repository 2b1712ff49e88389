import { spanInWords } from '../../vocabulary/days.ts';
import { type Errand, type Need, needUses } from '../../vocabulary/practice.ts';
import type { AmendableRow } from '../contract/practice-answers.ts';
import { type Field, rowsOf } from './amend-kit.ts';

const forms = ['paper', 'electronic', 'either'] as const;

export const useWords = {
  leave: 'left with them',
  show: 'shown and taken back',
  'bring home': 'brought home',
} as const;
const formWords = { paper: 'on paper', electronic: 'as a file', either: 'on paper or as a file' } as const;

export function copiesInWords(copies: number): string {
  return copies === 1 ? 'one copy' : `${copies} copies`;
}

/** What has to be on a paper and how long it has to be good. */
function askedOfPaper(need: Need): readonly Field[] {
  const good = need.goodFor === undefined ? undefined : spanInWords(need.goodFor);
  const fresh = need.fresh === undefined ? undefined : spanInWords(need.fresh);
  const copies = copiesInWords(need.copies);
  const { marks, form } = need;
  return [
    { key: 'copies', label: 'Copies', sort: 'count', value: need.copies, say: `They want ${copies}.` },
    {
      key: 'marks',
      label: 'What must stand on it',
      sort: 'list',
      value: marks,
      say: marks.length === 0 ? 'Nothing special must stand on it.' : `It must be ${marks.join(', ')}.`,
    },
    {
      key: 'form',
      label: 'Form',
      sort: 'choice',
      value: form,
      choices: forms,
      say: `They take it ${formWords[form]}.`,
    },
    {
      key: 'good_for',
      label: 'Still good after the visit for',
      sort: 'days',
      value: good,
      say: good === undefined ? 'It has to be good on the day.' : `It has to stay good for ${good} after the visit.`,
    },
    {
      key: 'fresh',
      label: 'Issued no longer ago than',
      sort: 'days',
      value: fresh,
      say: fresh === undefined ? 'How old it is doesn’t matter.' : `It must be issued within the last ${fresh}.`,
    },
  ];
}

/** Whether it is asked for at all, and what becomes of it. */
function fateOfPaper({ optional, use }: Need): readonly Field[] {
  const say = optional ? 'They may do without it.' : 'They want it.';
  return [
    { key: 'optional', label: 'May be left out', sort: 'yes or no', value: optional, say },
    {
      key: 'use',
      label: 'What becomes of it',
      sort: 'choice',
      value: use,
      choices: needUses,
      say: `It is ${useWords[use]}.`,
    },
  ];
}

/** What one errand asks of one paper. `group` names the paper, or the errand where the paper is at hand. */
export function needRows(errand: Errand, need: Need, group: string): readonly AmendableRow[] {
  // What the errand itself brings home can't be asked for before it.
  const ownYield = need.kinds.some((kind) => errand.yields.includes(kind));
  return rowsOf({ path: `errands.${errand.id}.needs.${need.id}`, group, basis: need.basis }, [
    ...askedOfPaper(need),
    ...(ownYield ? [] : fateOfPaper(need)),
  ]);
}
