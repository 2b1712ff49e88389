import { create } from 'zustand';
import type { RequestAnswer, RequestArgument, RequestName } from '../../core/desk/contract/requests.ts';
import type { Reply } from '../../core/desk/contract/window-port.ts';
import { port } from '../client/port.ts';
import { changed, useAsked } from './asked.ts';
import { useLot } from './session.ts';
import { type ToldLink, tellDone, tellTrouble } from './telling.ts';

/** Long work that is going on: what, how many, since when. */
export interface Work {
  readonly id: string;
  readonly title: string;
  readonly what: string;
  readonly done: number;
  readonly of: number;
  readonly since: number;
  readonly stopping: boolean;
}

interface WorkState {
  readonly work: Readonly<Record<string, Work>>;
}

export const useWork = create<WorkState>()(() => ({ work: {} }));

export function stopWork(id: string): void {
  port.stop(id);
  useWork.setState(({ work }) => {
    const one = work[id];
    return one === undefined ? { work } : { work: { ...work, [id]: { ...one, stopping: true } } };
  });
}

/** Progress of an asking that bears an id; heard for as long as it runs. */
export function noteProgress(
  id: string,
  told: { readonly what: string; readonly done: number; readonly of: number },
): void {
  useWork.setState(({ work }) => {
    const one = work[id];
    return one === undefined ? { work } : { work: { ...work, [id]: { ...one, ...told } } };
  });
}

/** Shows a strip for long work until the returned function is called. */
export function beginWork(id: string, title: string): () => void {
  const one: Work = { id, title, what: '', done: 0, of: 0, since: Date.now(), stopping: false };
  useWork.setState(({ work }) => ({ work: { ...work, [id]: one } }));
  return () =>
    useWork.setState(({ work }) => ({ work: Object.fromEntries(Object.entries(work).filter(([key]) => key !== id)) }));
}

/**
 * How an act is told: what to say when done (nothing: silent), by name and with what was said ("Heated floor area:
 * 1,850 sq ft"), and for long work the title of its strip.
 */
export interface Manner<N extends RequestName = RequestName> {
  readonly say?: string | ((answer: RequestAnswer<N>) => string) | undefined;
  readonly long?: string | undefined;
  /** What can't be undone: where it is set right, told in place of Undo. */
  readonly instead?: ((answer: RequestAnswer<N>) => ToldLink) | undefined;
  /** Troubles are shown by the caller, beside the field they are about. */
  readonly quiet?: boolean | undefined;
}

/**
 * Asks the desk to do something in the open lot. Tells what was done with a way to take it back, or what went wrong;
 * whatever is on view is read again.
 */
export async function perform<N extends RequestName>(
  name: N,
  argument: RequestArgument<N>,
  manner: Manner<N> = {},
): Promise<Reply<RequestAnswer<N>>> {
  const { handle, day } = useLot.getState();
  const id = crypto.randomUUID();
  const end = manner.long === undefined ? () => undefined : beginWork(id, manner.long);
  const reply = await port.ask(name, argument, { lot: handle, on: day, id });
  end();
  if (reply.ok) {
    const act = 'act' in reply.answer && typeof reply.answer.act === 'string' ? reply.answer.act : undefined;
    if (act === undefined) useAsked.getState().stale();
    else changed(act, 'reply');
    const { say, instead } = manner;
    const undo = act === undefined ? {} : { undo: act };
    const back = instead === undefined ? undo : { instead: instead(reply.answer) };
    if (say !== undefined) tellDone(typeof say === 'string' ? say : say(reply.answer), back);
  } else {
    // Work that was stopped may have got somewhere.
    if (reply.error.code === 'stopped') useAsked.getState().stale();
    if (manner.quiet !== true) tellTrouble(reply.error);
  }
  return reply;
}

/** Asks for something that changes nothing (a plan, a file to save), outside any screen's own reading. */
export async function fetchAnswer<N extends RequestName>(
  name: N,
  argument: RequestArgument<N>,
): Promise<RequestAnswer<N> | undefined> {
  const { handle, day } = useLot.getState();
  const reply = await port.ask(name, argument, { lot: handle, on: day });
  if (reply.ok) return reply.answer;
  tellTrouble(reply.error);
  return undefined;
}

/** The same with the reply as it is: what is wrong is shown by the caller, beside the field it is about. */
export function ask<N extends RequestName>(name: N, argument: RequestArgument<N>): Promise<Reply<RequestAnswer<N>>> {
  const { handle, day } = useLot.getState();
  return port.ask(name, argument, { lot: handle, on: day });
}

/** Takes back an act, the last one where none is named, and says which it was. */
export async function takeBack(act?: string): Promise<void> {
  await perform('undo', act === undefined ? {} : { act }, { say: ({ undone }) => `Taken back: ${undone}` });
}
