import { join } from 'node:path';
import { it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { sampleState } from '../../sample-project/states.ts';
import { toldState } from '../sample/told-states.ts';
import { openWindow } from './harness.ts';

/** The invented lot, one of its papers entered with a slip of the pen in the road's name. */
async function withSlip(folder: string): Promise<string> {
  const { day } = sampleState('permit');
  const { path } = await toldState('permit', folder);
  await using desk = openDesk({ program: 'a slip of the pen', today: () => day });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
  const { papers } = await desk.ask('papers', {}, { lot });
  const edition = papers.find(({ kind }) => kind === 'address-letter')?.editions.at(-1)?.edition ?? '';
  await desk.ask('correct', { edition, facts: { address: '418 Herron Lane' } }, { lot });
  return path;
}

// Fixed bug: "Is this the same place? Say so once" stood there, and in the window there was no way to say it.
it('two spellings that are close are confirmed where they are told, and not asked about again', async () => {
  const { day } = sampleState('permit');
  await using open = await openWindow({ today: day });
  open.host.recents.remember(await withSlip(join(open.places.lots, 'told')), 'Heron Lane', day);
  const key = open.host.recents.list()[0]?.key ?? '';
  await open.go(`#/${key}/errand/permit-apply`);
  await open.page.reload();
  const told = open.page.locator('.finding', { hasText: '418 Herron Lane' }).first();
  await told.getByRole('button', { name: /^Show why/ }).click();
  await told.getByRole('button', { name: /are the same$/ }).click();
  await open.page.locator('.finding', { hasText: '418 Herron Lane' }).first().waitFor({ state: 'detached' });
  await open.go(`#/${key}/history`);
  await open.page.locator('main.screen').getByText('Confirmed the same place').first().waitFor();
});
