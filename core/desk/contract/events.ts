/** What the desk tells its hosts unasked. Declared once, like the requests. */
export interface DeskEvents {
  /** Long work: what, how many of how many. */
  readonly progress: {
    readonly request: string;
    /** The asking's own id, where its host gave one. */
    readonly id?: string | undefined;
    readonly what: string;
    readonly done: number;
    readonly of: number;
  };
  /** Something in a lot changed: whoever shows it reads again. */
  readonly changed: { readonly lot: string; readonly act: string };
}

export type DeskEventName = keyof DeskEvents;
