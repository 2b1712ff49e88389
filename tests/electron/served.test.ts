import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { disposition, readRange } from '../../electron/served/ticket-bytes.ts';

describe('a byte range', () => {
  // Examples of RFC 9110, section 14.1.2, for a representation of 10,000 bytes.
  it('is read as RFC 9110 shows it', () => {
    expect(readRange('bytes=0-499', 10_000)).toEqual({ start: 0, end: 499 });
    expect(readRange('bytes=500-999', 10_000)).toEqual({ start: 500, end: 999 });
    expect(readRange('bytes=-500', 10_000)).toEqual({ start: 9500, end: 9999 });
    expect(readRange('bytes=9500-', 10_000)).toEqual({ start: 9500, end: 9999 });
    expect(readRange('bytes=-20000', 10_000)).toEqual({ start: 0, end: 9999 });
    expect(readRange('bytes=0-99999', 10_000)).toEqual({ start: 0, end: 9999 });
  });

  it('beyond the end can’t be satisfied; an invalid one, several, or another unit are ignored', () => {
    expect(readRange('bytes=10000-', 10_000)).toBe('not satisfiable');
    expect(readRange('bytes=-0', 10_000)).toBe('not satisfiable');
    expect(readRange('bytes=0-', 0)).toBe('not satisfiable');
    for (const header of [undefined, '', 'bytes=-', 'bytes=5-2', 'bytes=0-1,3-4', 'pages=0-1', 'bytes=a-b']) {
      expect(readRange(header, 10_000)).toBeUndefined();
    }
  });

  it('never leaves the file', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.nat(5000), (from, to, size) => {
        for (const header of [`bytes=${from}-${to}`, `bytes=${from}-`, `bytes=-${to}`]) {
          const range = readRange(header, size);
          if (range === undefined || range === 'not satisfiable') continue;
          expect(range.start).toBeGreaterThanOrEqual(0);
          expect(range.end).toBeGreaterThanOrEqual(range.start);
          expect(range.end).toBeLessThan(size);
        }
      }),
    );
  });
});

describe('the name a download is offered under', () => {
  it('can’t break out of its header, and keeps every letter for readers of RFC 8187', () => {
    const header = disposition('Hạnh’s "plan"; a\r\nb.pdf', 'attachment');
    expect(header).toMatch(/^attachment; filename="[\x20-\x7e]*"; filename\*=UTF-8''[\w%.!~-]+$/);
    const encoded = header.split("UTF-8''")[1] ?? '';
    expect(decodeURIComponent(encoded)).toBe('Hạnh’s "plan"; a\r\nb.pdf');
  });

  it('reads like the example of RFC 8187, section 3.2.3', () => {
    expect(disposition('€ rates', 'inline')).toContain("filename*=UTF-8''%E2%82%AC%20rates");
  });
});
