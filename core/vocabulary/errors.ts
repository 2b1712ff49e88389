/** Every way a request can end badly. Closed: a host may switch over it exhaustively. */
export const errorCodes = [
  'wrong use',
  'bad practice',
  'not found',
  'conflict',
  'lot busy',
  'lot newer',
  'lot damaged',
  'file refused',
  'paper damaged',
  'packet refused',
  'stopped',
  'disk',
  'internal',
] as const;

export type ErrorCode = (typeof errorCodes)[number];

/** What the same request waits for: a password, or that the lot's damaged database is mended. */
export const asksFor = ['password', 'mending'] as const;
export type AsksFor = (typeof asksFor)[number];

export interface ErrorDetail {
  /** The file, paper, office or rule it is about, as the person knows it. */
  readonly about?: string | undefined;
  /** What to do next, a whole sentence. */
  readonly next?: string | undefined;
  /** What the person may give or do so that the same request succeeds; `mending` only where mending can help. */
  readonly asks?: AsksFor | undefined;
}

/** An error as it crosses a process or host boundary. */
export interface ErrorShape extends ErrorDetail {
  readonly code: ErrorCode;
  readonly message: string;
}

function isErrorCode(value: unknown): value is ErrorCode {
  return errorCodes.some((code) => code === value);
}

/**
 * The one error class. `message` is a plain sentence for the person;
 * `code` is for programs; `about` and `next` say which thing and what to do.
 */
export class LotfileError extends Error {
  override readonly name = 'LotfileError';
  readonly code: ErrorCode;
  readonly about: string | undefined;
  readonly next: string | undefined;
  readonly asks: AsksFor | undefined;

  constructor(code: ErrorCode, message: string, detail: ErrorDetail & { readonly cause?: unknown } = {}) {
    super(message, detail.cause === undefined ? undefined : { cause: detail.cause });
    this.code = code;
    this.about = detail.about;
    this.next = detail.next;
    this.asks = detail.asks;
  }

  toJSON(): ErrorShape {
    const shape = { code: this.code, message: this.message, about: this.about, next: this.next };
    return this.asks === undefined ? shape : { ...shape, asks: this.asks };
  }

  /** Rebuilds an error from what came over a boundary; anything unknown becomes `internal`. */
  static from(value: unknown): LotfileError {
    if (value instanceof LotfileError) return value;
    if (value instanceof Error) return new LotfileError('internal', value.message, { cause: value });
    if (typeof value === 'object' && value !== null && 'code' in value && 'message' in value) {
      const about = 'about' in value && typeof value.about === 'string' ? value.about : undefined;
      const next = 'next' in value && typeof value.next === 'string' ? value.next : undefined;
      const asks = 'asks' in value ? asksFor.find((each) => each === value.asks) : undefined;
      if (isErrorCode(value.code)) return new LotfileError(value.code, String(value.message), { about, next, asks });
    }
    return new LotfileError('internal', String(value));
  }
}
