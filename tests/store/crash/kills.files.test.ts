import { expect, test } from 'vitest';
import { killMany } from './kills.ts';

/** Five thousand of them: `npm run crash -- 5000`. */
test('thirty programs killed in the middle of their work lose nothing they told as done, and leave nothing half done', async () => {
  const { wrong, during, told } = await killMany(30);
  expect(wrong).toEqual([]);
  expect(told).toBeGreaterThan(10);
  expect(Object.keys(during).length).toBeGreaterThan(3);
});
