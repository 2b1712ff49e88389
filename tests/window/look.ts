/**
 * Pictures of the window with the sample lot, to be looked at:
 *   npx node tests/window/look.ts today way errand/permit-apply first [--out /tmp/shots] [--only 1280-light]
 * writes each screen at 1280x800 and 1600x1000, light and dark, and at 200% letters. `first` is the first page.
 * `--state framing` shows the lot as told up to that state instead (sample-project/states.ts).
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { stateNames } from '../../sample-project/states.ts';
import { type OpenWindow, openWindow, type WindowOptions } from './harness.ts';
import { makeReady } from './set-up.ts';
import { openToldLot } from './told-lot.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    out: { type: 'string', default: '/tmp/shots' },
    only: { type: 'string' },
    state: { type: 'string' },
    full: { type: 'boolean', default: false },
  },
});
const sorts = [
  { name: '1280-light', width: 1280, height: 800, dark: false, size: 100 },
  { name: '1280-dark', width: 1280, height: 800, dark: true, size: 100 },
  { name: '1600-light', width: 1600, height: 1000, dark: false, size: 100 },
  { name: '1600-dark', width: 1600, height: 1000, dark: true, size: 100 },
  { name: 'large', width: 1280, height: 800, dark: false, size: 200 },
].filter(({ name }) => values.only === undefined || name.startsWith(values.only));

const state = stateNames.find((each) => each === values.state);
if (values.state !== undefined && state === undefined) throw new Error(`The states are ${stateNames.join(', ')}.`);

interface Looked extends AsyncDisposable {
  readonly open: OpenWindow;
  screen(name: string): Promise<unknown>;
}

async function openLot(options: WindowOptions): Promise<Looked> {
  if (state !== undefined) return openToldLot(state, options);
  const open = await openWindow({ ...options, sample: true });
  return { open, screen: (name) => open.openSample(name), [Symbol.asyncDispose]: () => open[Symbol.asyncDispose]() };
}

await makeReady();
mkdirSync(values.out, { recursive: true });
for (const { name, width, height, dark, size } of sorts) {
  await using lot = await openLot({ width, height, dark });
  const { open } = lot;
  const { page } = open;
  page.on('console', (told) => {
    if (told.type() === 'error') process.stdout.write(`  console: ${told.text()}\n`);
  });
  page.on('pageerror', (error) => process.stdout.write(`  page: ${error.message}\n`));
  await page.evaluate((text) => window.localStorage.setItem('lotfile.size', text), String(size));
  for (const screen of positionals) {
    if (screen === 'first') {
      await open.go('#/');
      await page.reload();
    } else await lot.screen(screen);
    await page.waitForLoadState('networkidle', { timeout: 3000 }).catch(() => undefined);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    const file = join(values.out, `${screen.replaceAll('/', '-')}.${name}.png`);
    await page.screenshot({ path: file, fullPage: values.full });
    process.stdout.write(`${file}${wide > 0 ? `  (${wide} px too wide)` : ''}\n`);
  }
}
