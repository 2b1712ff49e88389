/** What takes a while: it can be stopped, and tells how far it is. */
export interface LongWork {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?:
    | ((at: { readonly what: string; readonly done: number; readonly of: number }) => void)
    | undefined;
}
