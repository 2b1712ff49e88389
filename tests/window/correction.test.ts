import { expect, it } from 'vitest';
import { commonLayers } from '../../core/desk/templates.ts';
import { readPractice } from '../../core/practice/index.ts';
import { asKind, type Correction } from '../../renderer/screens/papers/correction.ts';

const letter: Correction = {
  kind: 'other',
  title: 'Letter',
  subject: undefined,
  number: '',
  issuer: '',
  revision: '',
  issued: undefined,
  effective: undefined,
  goodThrough: undefined,
  facts: {},
  marks: [],
};

// Fixed bug: a firm picked before another kind was picked went along to a kind that is kept for no firm.
it('a firm picked for one kind goes along only to a kind that is kept per firm too', () => {
  const practice = readPractice(commonLayers());
  const subjects = [{ id: 's-1', sort: 'engagement', title: 'Alder Ash, framing' }] as const;
  const picked = { ...asKind(letter, {}, { kind: 'contractor-licence', practice, subjects }), subject: 's-1' };
  const after = (kind: string) => asKind(picked, {}, { kind, practice, subjects }).subject;
  expect(after('liability-certificate')).toBe('s-1');
  for (const kind of ['deed', 'draw-request', 'other']) expect(after(kind)).toBeUndefined();
});
