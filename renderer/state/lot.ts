import type { HostCard } from '../../core/desk/contract/host-acts.ts';
import { type Day, isDay } from '../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { type SampleName, sampleNames } from '../../core/vocabulary/sample-names.ts';
import { port } from '../client/port.ts';
import { useAsked } from './asked.ts';
import { goToLot, usePlace } from './place.ts';
import { type LotState, useLot } from './session.ts';

const dayPlace = (key: string): string => `lotfile.day.${key}`;

function rememberedDay(key: string): Day | undefined {
  const text = window.localStorage.getItem(dayPlace(key)) ?? '';
  return isDay(text) ? text : undefined;
}

/** Reads everything as of another day; undefined goes back to today. Kept for this lot in this browser. */
export function lookAt(day: Day | undefined): void {
  const { key } = useLot.getState();
  if (key !== undefined) {
    if (day === undefined) window.localStorage.removeItem(dayPlace(key));
    else window.localStorage.setItem(dayPlace(key), day);
  }
  useLot.setState(day === undefined ? without('day') : { day });
  useAsked.getState().forget();
}

/** A state without some optional fields; zustand merges, so what goes must be replaced whole. */
function without(...fields: readonly (keyof LotState)[]): LotState {
  const rest = Object.entries(useLot.getState()).filter(([field]) => !fields.some((each) => each === field));
  useLot.setState({ title: '', opening: false, hostHere: true, ...Object.fromEntries(rest) }, true);
  return useLot.getState();
}

export async function readHost(): Promise<HostCard | undefined> {
  const reply = await port.act('host', {});
  if (reply.ok) useLot.setState({ host: reply.answer });
  else useLot.setState({ trouble: reply.error });
  return reply.ok ? reply.answer : undefined;
}

/** Opens the lot behind a folder's ticket and goes to its first screen. `day`: look at it as of that day. */
export async function openFolder(
  folder: string,
  options: {
    readonly day?: Day | undefined;
    readonly takeOver?: boolean | undefined;
    readonly screen?: string;
    readonly key?: string;
  } = {},
): Promise<ErrorShape | undefined> {
  const reply = await port.ask('open-lot', { folder, takeOver: options.takeOver ?? false }, {});
  if (!reply.ok) return reply.error;
  await nowIn({ ...reply.answer, folder }, options);
  return undefined;
}

/** Takes up a lot that was just opened or made. */
export async function nowIn(
  { lot, title, folder }: { readonly lot: string; readonly title: string; readonly folder: string },
  { day, screen, key: given }: { readonly day?: Day | undefined; readonly screen?: string; readonly key?: string } = {},
): Promise<void> {
  // The host lists what was opened last first.
  const host = await readHost();
  const key = given ?? (host?.lots.find((each) => each.folder === folder) ?? host?.lots[0])?.key ?? lot;
  if (day !== undefined) window.localStorage.setItem(dayPlace(key), day);
  const seen = rememberedDay(key);
  useAsked.getState().forget();
  without('trouble', 'day');
  useLot.setState({ handle: lot, key, title, opening: false, ...(seen === undefined ? {} : { day: seen }) });
  goToLot(key, screen ?? (usePlace.getState().lot === key ? usePlace.getState().screen : 'today'));
}

const notHere: ErrorShape = {
  code: 'not found',
  message: 'The lot this address names is not in this computer’s list, or its folder was moved.',
  next: 'Open it from the list, or open its folder.',
};

/** The sample lot stands in no list; its address names it, with how far along it is. */
export function sampleKey(state: SampleName): string {
  return state === 'permit' ? 'sample' : `sample-${state}`;
}

function sampleOf(key: string): SampleName | undefined {
  return sampleNames.find((name) => sampleKey(name) === key);
}

/** The ticket of the folder an address names; undefined where this host knows no such lot. */
async function folderOf(key: string): Promise<string | undefined> {
  const host = await readHost();
  const state = sampleOf(key);
  if (state !== undefined) {
    const reply = await port.act('sample-lot', { state });
    return reply.ok ? reply.answer.folder : undefined;
  }
  const offered = host?.lots.find((each) => each.key === key);
  return offered === undefined || offered.gone ? undefined : offered.folder;
}

/** At the start and after a host came back: takes up the lot the address names, where there is one. */
export async function takeUp(): Promise<void> {
  const { lot: key } = usePlace.getState();
  const folder = await folderOf(key);
  // The address changed meanwhile: whoever follows it takes that lot up.
  if (usePlace.getState().lot !== key) return;
  if (folder === undefined) {
    without('handle', 'key');
    useLot.setState({ opening: false, ...(key === '' ? {} : { trouble: notHere }) });
    if (key !== '') goToLot('');
    return;
  }
  const reply = await port.ask('open-lot', { folder }, {});
  if (usePlace.getState().lot !== key) {
    // Opened in vain: another address is being followed by now.
    if (reply.ok && useLot.getState().handle !== reply.answer.lot) {
      void port.ask('close-lot', {}, { lot: reply.answer.lot });
    }
    return;
  }
  if (!reply.ok) {
    without('handle', 'key');
    useLot.setState({ trouble: reply.error, opening: false });
    return;
  }
  const seen = rememberedDay(key);
  // What is on view stays while it is read anew: nothing that was typed is lost.
  useAsked.getState().stale();
  without('trouble', 'day');
  const { lot, title } = reply.answer;
  useLot.setState({ handle: lot, key, title, opening: false, ...(seen === undefined ? {} : { day: seen }) });
}

/** Back to the first page; the lot stays open for other windows. */
export function leaveLot(): void {
  const { handle } = useLot.getState();
  if (handle !== undefined) void port.ask('close-lot', {}, { lot: handle });
  without('handle', 'key', 'day', 'trouble');
  goToLot('');
  void readHost();
}

/** Follows the address: back, forward or a typed address may name another lot, or none. */
export function followAddress(): () => void {
  return usePlace.subscribe(({ lot }, before) => {
    if (lot === before.lot || lot === (useLot.getState().key ?? '')) return;
    if (lot === '') {
      leaveLot();
      return;
    }
    const { handle } = useLot.getState();
    if (handle !== undefined) void port.ask('close-lot', {}, { lot: handle });
    useLot.setState({ opening: true });
    void takeUp();
  });
}
