/** The job handed to the worker program: kept pages in, smaller ones out. */
export interface SlimJob {
  readonly job: 'slim';
  /** Sound pages (a rendition), never an original. */
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
  readonly output: string;
  /** Bytes that the office or mailbox takes. */
  readonly most: number;
  /** The paper carries a seal: refused. */
  readonly sealed: boolean;
}

export interface SlimPage {
  /** 0-based. */
  readonly page: number;
  readonly before: number;
  readonly after: number;
}

export interface SlimDone {
  readonly before: number;
  readonly after: number;
  readonly sha256: string;
  /** The limit was reached. */
  readonly fits: boolean;
  /** How far it was pressed, for the record; the same pages and limit give the same bytes. */
  readonly recipe: string;
  readonly tool: string;
  readonly pages: readonly SlimPage[];
  /** Whole sentences for the person. */
  readonly notes: readonly string[];
}
