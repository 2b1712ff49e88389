import { join } from 'node:path';
import { build } from 'vite';
import { isStale } from '../../electron/start/newest.ts';
import { builtWindow, cacheHost } from './harness.ts';

const project = join(import.meta.dirname, '..', '..');

/** Once before the window tests: the window is built and the sample lot made, where they are older than the sources. */
export async function setup(): Promise<void> {
  const sources = ['renderer', 'core', 'package.json'].map((name) => join(project, name));
  if (isStale(join(builtWindow, 'index.html'), sources)) {
    await build({ configFile: join(project, 'renderer', 'vite.config.ts'), logLevel: 'warn' });
  }
  await using host = cacheHost();
  const reply = await host.act('sample-lot', {});
  if (!reply.ok) throw new Error(`${reply.error.message} ${reply.error.next ?? ''}`);
}
