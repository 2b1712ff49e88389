import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import type { UtilityChild } from '../../electron/main/parts.ts';
import { utilityWorker } from '../../electron/main/utility-worker.ts';

it('a worker that ended a moment ago, before its end was told, can be ended without a fault', () => {
  const { pid } = spawnSync(process.execPath, ['--version']);
  let asked = 0;
  const child: UtilityChild = {
    pid,
    stderr: null,
    postMessage: () => undefined,
    kill: () => {
      asked += 1;
      return false;
    },
    on: () => child,
    once: () => child,
  };
  const worker = utilityWorker({ fork: () => child })({ program: 'worker-main.js', words: [], nodeWords: [] });
  expect(worker.alive).toBe(true);
  expect(() => worker.kill()).not.toThrow();
  expect(asked).toBe(1);
});
