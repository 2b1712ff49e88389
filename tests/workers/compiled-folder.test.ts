import { homedir } from 'node:os';
import { expect, test } from 'vitest';
import { compiledFolder } from '../../core/workers/compiled-folder.ts';

test('compiled sources lie in the user’s own folders, where no other user of the computer can lay code', () => {
  const folder = compiledFolder({});
  expect(folder.startsWith(homedir())).toBe(true);
});

test('who sets the folder for Node sets it for Lotfile', () => {
  expect(compiledFolder({ NODE_COMPILE_CACHE: '/elsewhere/compiled' })).toBe('/elsewhere/compiled');
});
