import type { ErrorShape } from '../../vocabulary/errors.ts';
import type { DeskEventName, DeskEvents } from './events.ts';
import type { HostActAnswer, HostActArgument, HostActName } from './host-acts.ts';
import type { RequestAnswer, RequestArgument, RequestName } from './requests.ts';

/** How an answer crosses a host boundary: errors travel as data, for classes don't survive it. */
export type Reply<Answer> =
  | { readonly ok: true; readonly answer: Answer }
  | { readonly ok: false; readonly error: ErrorShape };

/** Beside the argument. `id` names this asking, so that its progress can be told and it can be stopped. */
export interface WindowAsking {
  readonly lot?: string | undefined;
  readonly on?: string | undefined;
  readonly id?: string | undefined;
}

export interface TakenFile {
  readonly ticket: string;
  readonly name: string;
  readonly bytes: number;
}

/** Everything a window is told unasked. */
export type WindowEvent =
  | { [E in DeskEventName]: { readonly event: E; readonly told: DeskEvents[E] } }[DeskEventName]
  /** The host went away or came back; open lots have to be opened again. */
  | { readonly event: 'host'; readonly told: { readonly here: boolean } }
  /** A menu of the desktop asks the window to go somewhere. */
  | { readonly event: 'go'; readonly told: { readonly to: string } };

/**
 * What a window knows of the world: the same in the desktop window (put there by the preload script) and in a browser
 * (HTTP and an event stream). A path is only ever shown in it: none comes back.
 */
export interface WindowPort {
  readonly host: 'desktop' | 'browser';
  ask<N extends RequestName>(
    name: N,
    argument: RequestArgument<N>,
    asking: WindowAsking,
  ): Promise<Reply<RequestAnswer<N>>>;
  act<N extends HostActName>(name: N, argument: HostActArgument<N>): Promise<Reply<HostActAnswer<N>>>;
  /** Stops a long asking by its id; harmless when it has ended. */
  stop(id: string): void;
  /** Hands files the person dropped or chose to the desk. One that can't be taken comes back as an error. */
  offer(files: readonly File[]): Promise<readonly Reply<TakenFile>[]>;
  /** Where the bytes behind a ticket can be read (ranges are served); with `save`, offered as a download. */
  address(ticket: string, use?: 'save'): string;
  /** Begins dragging a file out of the window; only the desktop can. */
  dragOut(ticket: string): void;
  on(listener: (event: WindowEvent) => void): () => void;
}
