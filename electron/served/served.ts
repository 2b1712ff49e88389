/** What a host serves, before it becomes an HTTP answer or an answer of the desktop's own protocol. */
export interface Served {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | { readonly path: string; readonly start: number; readonly end: number };
}

/** A plain page with one sentence and what to do next; nothing in it but text. */
export function plainPage(status: number, sentence: string, next: string): Served {
  const safe = (text: string): string => text.replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`);
  return {
    status,
    headers: { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store' },
    body: `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Lotfile</title></head>
<body><main><h1>Lotfile</h1><p>${safe(sentence)}</p><p>${safe(next)}</p></main></body></html>
`,
  };
}

export const notThere = (): Served =>
  plainPage(404, 'There is nothing under this address.', 'Go back to the window, or load it again.');
