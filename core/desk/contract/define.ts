import type * as z from 'zod';

/** What a request is, without how it is done. `out` is a type only: it is our own desk that answers. */
export interface RequestSpec<In extends z.ZodType, Out> {
  readonly help: string;
  readonly in: In;
  /** Works on an open lot: its input then also carries `lot`, and `on` for the day. */
  readonly lot: boolean;
  /** May take seconds: hosts show progress and a way to stop. */
  readonly long: boolean;
  /** Never there at run time; carries the answer's type. */
  readonly out?: Out;
}

/** `request<Answer>()({...})`: the answer's type is given, the input's is read off its schema. */
export function request<Out>() {
  return <In extends z.ZodType>(spec: {
    readonly help: string;
    readonly in: In;
    readonly lot?: false;
    readonly long?: true;
  }): RequestSpec<In, Out> => ({ help: spec.help, in: spec.in, lot: spec.lot ?? true, long: spec.long ?? false });
}
