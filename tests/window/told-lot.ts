import { join } from 'node:path';
import type { Page } from 'playwright-core';
import type { SampleName } from '../../core/desk/door.ts';
import { sampleState } from '../../sample-project/states.ts';
import { toldState } from '../sample/told-states.ts';
import { type OpenWindow, openWindow, type WindowOptions } from './harness.ts';

/** A window on the invented lot in one of its states, its host's today the day that state stands at. */
export interface ToldWindow extends AsyncDisposable {
  readonly open: OpenWindow;
  /** Goes to a screen and waits until it is there. */
  screen(name: string): Promise<Page>;
}

export async function openToldLot(name: SampleName, options: WindowOptions = {}): Promise<ToldWindow> {
  const { day } = sampleState(name);
  const open = await openWindow({ ...options, today: day });
  const { path } = await toldState(name, join(open.places.lots, 'told'));
  open.host.recents.remember(path, 'Heron Lane', day);
  const key = open.host.recents.list()[0]?.key ?? '';
  await open.go(`#/${key}/today`);
  await open.page.reload();
  const screen = async (where: string): Promise<Page> => {
    await open.go(`#/${key}/${where}`);
    await open.page.locator('main.screen h1').waitFor();
    return open.page;
  };
  return { open, screen, [Symbol.asyncDispose]: () => open[Symbol.asyncDispose]() };
}
