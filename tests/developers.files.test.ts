import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const project = join(import.meta.dirname, '..');

it('every test the list of harms names is there, under that name', () => {
  const text = readFileSync(join(project, 'DEVELOPERS.md'), 'utf8').replace(/\s+/g, ' ');
  const named = [...text.matchAll(/`(tests\/[\w/.-]+\.test\.ts)` "([^"]+)"/g)];
  expect(named.length).toBeGreaterThan(20);
  const lost = named.filter(([, file = '', name = '']) => {
    const path = join(project, file);
    return !existsSync(path) || !readFileSync(path, 'utf8').includes(name);
  });
  expect(lost.map(([whole]) => whole)).toEqual([]);
});
