import type { WindowEvent } from '../../core/desk/contract/window-port.ts';

type Hear = (event: WindowEvent) => void;

/** What the windows of one browser say to each other beside the host's events. */
interface Joined {
  readonly event: 'joined';
}

const speaker = 'lotfile-events';
const lockOf = (window: string): string => `lotfile-window-${window}`;
/** How often the window that hears for all looks which of them are still there. */
const lookEvery = 5000;

/** A stream of one's own: tells when the host goes and when it is back; the browser itself reconnects it. */
export function ownEvents(window: string, hear: Hear): () => void {
  const stream = new EventSource(`/events?window=${window}`);
  stream.onopen = () => hear({ event: 'host', told: { here: true } });
  stream.onerror = () => hear({ event: 'host', told: { here: false } });
  stream.onmessage = ({ data }) => hear(JSON.parse(String(data)));
  return () => stream.close();
}

/** Says a change of the host's being there once. */
export function onceEach(hear: Hear): Hear {
  let here = true;
  return (event) => {
    if (event.event === 'host') {
      if (event.told.here === here) return;
      here = event.told.here;
    }
    hear(event);
  };
}

/** The other windows of this browser that are open: each holds a lock as long as it lives, whatever ends it. */
async function others(window: string): Promise<readonly string[]> {
  const { held = [] } = await navigator.locks.query();
  const prefix = lockOf('');
  return held
    .flatMap(({ name = '' }) => (name.startsWith(prefix) ? [name.slice(prefix.length)] : []))
    .filter((name) => name !== window)
    .toSorted();
}

/** Resolves when the signal does. */
function ended(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => signal.addEventListener('abort', () => resolve(), { once: true }));
}

interface Leading {
  readonly window: string;
  readonly channel: BroadcastChannel;
  readonly hear: Hear;
  /** Tells the host for which other windows this one's stream stands. */
  readonly stand: (others: readonly string[]) => void;
  readonly signal: AbortSignal;
}

/** Hears for all windows of the browser until this one ends; the next in line then takes over. */
async function lead({ window, channel, hear, stand, signal }: Leading): Promise<void> {
  let last: WindowEvent = { event: 'host', told: { here: true } };
  let known = '';
  const look = async (): Promise<void> => {
    const there = await others(window);
    if (there.join() === known) return;
    known = there.join();
    stand(there);
  };
  const tell = (event: WindowEvent): void => {
    channel.postMessage(event);
    hear(event);
    if (event.event !== 'host') return;
    last = event;
    // A stream that is opened again stands for its own window alone until it is told.
    known = '';
    if (event.told.here) void look();
  };
  channel.addEventListener('message', ({ data }: MessageEvent<WindowEvent | Joined>) => {
    if (data.event !== 'joined') return;
    channel.postMessage(last);
    void look();
  });
  const close = ownEvents(window, tell);
  const timer = setInterval(() => void look(), lookEvery);
  await ended(signal);
  clearInterval(timer);
  close();
}

/**
 * One event stream for all windows of a browser: it allows six connections to one host, and a stream takes one for as
 * long as its window is open. The window that holds the speaker's lock hears for all and passes on.
 */
export function sharedEvents(window: string, hear: Hear, stand: Leading['stand']): () => void {
  const channel = new BroadcastChannel(speaker);
  const end = new AbortController();
  const { signal } = end;
  channel.addEventListener('message', ({ data }: MessageEvent<WindowEvent | Joined>) => {
    if (data.event !== 'joined') hear(data);
  });
  const hold = navigator.locks.request(lockOf(window), () => {
    channel.postMessage({ event: 'joined' } satisfies Joined);
    return ended(signal);
  });
  const speak = navigator.locks.request(speaker, { signal }, () => lead({ window, channel, hear, stand, signal }));
  void Promise.allSettled([hold, speak]).then(() => channel.close());
  return () => end.abort();
}

/** Whether windows of this browser can find each other. */
export function canShare(): boolean {
  return 'locks' in navigator && 'BroadcastChannel' in globalThis;
}
