import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alarmTrigger, escaped, folded } from '../../core/calendar/ics-text.ts';

const octets = new TextEncoder();

function unfolded(text: string): string {
  return text.replaceAll('\r\n ', '');
}

describe('folding', () => {
  it('leaves a line of exactly 75 octets as it is, and cuts one of 76', () => {
    expect(folded('x'.repeat(75))).toBe('x'.repeat(75));
    expect(folded('x'.repeat(76))).toBe(`${'x'.repeat(75)}\r\n x`);
  });

  it('keeps every line within 75 octets, cuts no character, and loses nothing', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (text) => {
        const line = text.replace(/[\r\n]/g, '').toWellFormed();
        const cut = folded(line);
        for (const part of cut.split('\r\n')) {
          expect(octets.encode(part).length).toBeLessThanOrEqual(75);
          expect(part.isWellFormed()).toBe(true);
        }
        expect(unfolded(cut)).toBe(line);
      }),
    );
  });
});

describe('escaping', () => {
  it('escapes backslash, semicolon, comma and line break, and no colon', () => {
    expect(escaped('a\\b;c,d:e\r\nf\u0007g')).toBe('a\\\\b\\;c\\,d:e\\nf g');
  });
});

describe('alarms', () => {
  it('go at nine in the morning, so many days before the day begins', () => {
    expect(alarmTrigger(14)).toBe('-P13DT15H');
    expect(alarmTrigger(1)).toBe('-PT15H');
    expect(alarmTrigger(0)).toBe('PT9H');
  });
});
