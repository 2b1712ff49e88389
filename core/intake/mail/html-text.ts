const named: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ' };

function decoded(entity: string, name: string): string {
  if (!name.startsWith('#')) return named[name.toLowerCase()] ?? entity;
  const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number.parseInt(name.slice(1), 10);
  return code > 31 && code <= 0x10ffff && (code < 0xd800 || code > 0xdfff) ? String.fromCodePoint(code) : ' ';
}

/** The words of an HTML body, its paragraphs as lines. Nothing of it is run, fetched or shown as it was meant. */
export function htmlText(html: string): string {
  return html
    .replace(/<!--[\s\S]*?(-->|$)/g, '')
    .replace(/<(script|style|head|title)\b[\s\S]*?(<\/\1\s*>|$)/gi, '')
    .replace(/[\t\r\n ]+/g, ' ')
    .replace(/<(br|\/p|\/div|\/tr|\/li|\/h[1-6])\b[^>]*>/gi, '\n')
    .replace(/<\/t[dh]\b[^>]*>/gi, '\t')
    .replace(/<[^>]*(>|$)/g, '')
    .replace(/&(#\d{1,7}|#x[\da-f]{1,6}|[a-z]{2,8});/gi, decoded)
    .replace(/[ \t]*\n[ \t]*/g, '\n')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}
