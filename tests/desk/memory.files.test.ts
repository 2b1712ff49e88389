import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';

/** A thousand of them: `npm run leak -- 1000`. */
it('assembling again and again holds no more memory than before', () => {
  const program = join(import.meta.dirname, '..', 'bench', 'leak.ts');
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--expose-gc', program, '20'], { encoding: 'utf8' });
  expect(stdout + stderr).toMatch(/20 assemblies: -?\d+ KB more held/);
  expect(status, stdout).toBe(0);
});
