import { useEffect, useEffectEvent } from 'react';
import { create } from 'zustand';
import type { RequestAnswer, RequestArgument, RequestName } from '../../core/desk/contract/requests.ts';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { port } from '../client/port.ts';
import { useLot } from './session.ts';

interface Entry {
  readonly answer?: unknown;
  readonly error?: ErrorShape;
  /** The round of changes it was read in; an older one is read again while the old answer stays on view. */
  readonly round: number;
  readonly waiting: boolean;
}

interface AskedState {
  readonly round: number;
  readonly entries: Readonly<Record<string, Entry>>;
  /** Something changed: whatever is on view is read again. */
  readonly stale: () => void;
  /** Another lot or day: nothing known holds any more. */
  readonly forget: () => void;
}

/** What the desk answered, kept while it holds. */
export const useAsked = create<AskedState>()((set) => ({
  round: 0,
  entries: {},
  stale: () => set(({ round }) => ({ round: round + 1 })),
  forget: () => set(({ round }) => ({ round: round + 1, entries: {} })),
}));

/** Acts whose change was heard before their own reply came, and acts whose reply came before the change was heard. */
const heard = new Set<string>();
const awaited = new Set<string>();

/** A change was heard or an own act was replied to: read anew, once for both. */
export function changed(act: string, by: 'event' | 'reply'): void {
  const [mine, other] = by === 'event' ? [heard, awaited] : [awaited, heard];
  if (other.delete(act)) return;
  mine.add(act);
  // Changes by other windows have no reply here: only the newest few can still be matched.
  for (const old of mine) if (mine.size > 20) mine.delete(old);
  useAsked.getState().stale();
}

function put(key: string, entry: Entry): void {
  useAsked.setState(({ entries }) => ({ entries: { ...entries, [key]: entry } }));
}

async function read(key: string, name: RequestName, argument: unknown): Promise<void> {
  const { round, entries } = useAsked.getState();
  const known = entries[key];
  if (known !== undefined && known.round === round) return;
  put(key, { ...known, round, waiting: true });
  const { handle, day } = useLot.getState();
  // The name picks the argument's type at the hook below; here only the key ties them.
  const reply = await port.ask(name, argument as never, { lot: handle, on: day });
  const now = useAsked.getState().entries[key];
  if (now === undefined || now.round !== round) return;
  put(key, reply.ok ? { answer: reply.answer, round, waiting: false } : { error: reply.error, round, waiting: false });
}

export interface Answered<N extends RequestName> {
  readonly answer?: RequestAnswer<N> | undefined;
  readonly error?: ErrorShape | undefined;
  readonly waiting: boolean;
}

/**
 * Reads from the desk and reads again whenever the lot changes; the old answer stays on view meanwhile.
 * @param argument `undefined`: nothing is asked yet.
 */
export function useAnswer<N extends RequestName>(name: N, argument: RequestArgument<N> | undefined): Answered<N> {
  const handle = useLot((state) => state.handle);
  const lot = useLot((state) => state.key);
  const day = useLot((state) => state.day);
  const round = useAsked((state) => state.round);
  // By the lot's lasting key: its handle changes when a host comes back.
  const key = JSON.stringify([lot, day, name, argument]);
  const wanted = argument !== undefined && handle !== undefined;
  // The key stands for name and argument; a new round asks the same again.
  const ask = useEffectEvent((about: string, _round: number) => {
    if (argument !== undefined) void read(about, name, argument);
  });
  useEffect(() => {
    if (wanted) ask(key, round);
  }, [key, round, wanted]);
  const entry = useAsked((state) => state.entries[key]);
  return {
    answer: entry?.answer as RequestAnswer<N> | undefined,
    error: entry?.error,
    waiting: wanted && entry?.answer === undefined && entry?.error === undefined,
  };
}
