import { createServer } from 'node:net';
import { join } from 'node:path';
import { buildWindow } from '../../electron/packaging/build-window.ts';
import { cacheHost, launch, sharedBrowser } from './harness.ts';

/** Builds the window and makes the sample lot, where they are older than the sources. */
export async function makeReady(): Promise<void> {
  await buildWindow(join(import.meta.dirname, '..', '..'));
  await using host = cacheHost();
  const reply = await host.act('sample-lot', {});
  if (!reply.ok) throw new Error(`${reply.error.message} ${reply.error.next ?? ''}`);
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const at = server.address();
      server.close(() => (at === null || typeof at === 'string' ? reject(new Error('no port')) : resolve(at.port)));
    });
  });
}

/** Once before the window tests; one browser is started for all of them and ended after the last. */
export async function setup(): Promise<() => Promise<void>> {
  await makeReady();
  const port = await freePort();
  const browser = await launch(port);
  process.env[sharedBrowser] = `http://127.0.0.1:${port}`;
  return async () => {
    Reflect.deleteProperty(process.env, sharedBrowser);
    await browser.close();
  };
}
