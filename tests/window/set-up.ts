import { join } from 'node:path';
import { buildWindow } from '../../electron/packaging/build-window.ts';
import { cacheHost } from './harness.ts';

/** Once before the window tests: the window is built and the sample lot made, where they are older than the sources. */
export async function setup(): Promise<void> {
  await buildWindow(join(import.meta.dirname, '..', '..'));
  await using host = cacheHost();
  const reply = await host.act('sample-lot', {});
  if (!reply.ok) throw new Error(`${reply.error.message} ${reply.error.next ?? ''}`);
}
