import { join } from 'node:path';
import { build } from 'vite';
import { isStale } from './newest.ts';

/** Where the built window lies. */
export function windowIn(project: string): string {
  return join(project, 'dist', 'renderer');
}

/** Builds the window where it is missing or older than its sources. @returns whether it had to. */
export async function buildWindow(project: string, onBuild: () => void = () => undefined): Promise<boolean> {
  const sources = ['renderer', 'core', 'package.json'].map((name) => join(project, name));
  if (!isStale(join(windowIn(project), 'index.html'), sources)) return false;
  onBuild();
  await asShipped(() => build({ configFile: join(project, 'renderer', 'vite.config.ts'), logLevel: 'warn' }));
  return true;
}

/** Whoever builds (a test run calls itself "test"), the window is the one that ships: parts act otherwise under test. */
async function asShipped(work: () => Promise<unknown>): Promise<void> {
  const { NODE_ENV: before } = process.env;
  Object.assign(process.env, { NODE_ENV: 'production' });
  try {
    await work();
  } finally {
    if (before === undefined) Reflect.deleteProperty(process.env, 'NODE_ENV');
    else Object.assign(process.env, { NODE_ENV: before });
  }
}
