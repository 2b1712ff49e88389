import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { officeWord, readPractice } from '../../core/practice/index.ts';

const common = new URL('../../templates/practice/common/', import.meta.url);

// Fixed bug: dropping `after` failed with "There is no "after" here to drop", for it shares a group with `event`.
test('an office may say that an extension needs no event first', () => {
  const layers = readdirSync(common)
    .sort()
    .map((name) => ({ name, text: readFileSync(new URL(name, common), 'utf8') }));
  expect(readPractice(layers).papers['septic-permit']?.extension?.after).toBe('construction-begun');
  const word = officeWord({
    target: 'papers.septic-permit.extend.after',
    value: 'drop',
    who: 'R. Amsel',
    day: '2026-03-30',
  });
  expect(readPractice([...layers, word]).papers['septic-permit']?.extension).toMatchObject({
    after: undefined,
    times: 1,
  });
});
