import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LetterReader } from '../../../core/intake/ocr/letter-reader.ts';
import { readPaper } from '../../../core/intake/reading/read-paper.ts';
import { smallSet } from '../reading-set/compose.ts';
import { figuresOf, judge, type Outcome } from '../reading-set/measure.ts';
import { textOfDocument } from '../reading-set/read-set.ts';
import { common, today } from './written.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-reading-set-'));
const readers: LetterReader[] = [];
const outcomes: Outcome[] = [];

/** One of each kind, scanned askew with noise; two readers side by side. */
beforeAll(async () => {
  const left = [...smallSet];
  const one = async () => {
    const reader = await LetterReader.open();
    readers.push(reader);
    for (let index = left.shift(); index !== undefined; index = left.shift()) {
      const { document, pages } = await textOfDocument(index, { folder, reader: async () => reader, scanned: true });
      outcomes.push(...judge(document, readPaper(pages, common, { today }), common));
    }
  };
  await Promise.all([one(), one()]);
}, 300_000);
afterAll(async () => {
  await Promise.all(readers.map((reader) => reader.close()));
  rmSync(folder, { recursive: true, force: true });
});

const share = (group: Parameters<typeof figuresOf>[1]) => {
  const { right, of } = figuresOf(outcomes, group);
  return right / of;
};

describe('twenty scanned papers of twenty kinds', () => {
  it('marks no wrong value as sure', () => {
    expect(outcomes.filter((outcome) => outcome.sureness === 'sure' && !outcome.right)).toEqual([]);
  });

  it('is sure of something: not everything is left to the person', () => {
    expect(figuresOf(outcomes, 'kind').sure).toBeGreaterThan(8);
    expect(figuresOf(outcomes, 'dates').sure).toBeGreaterThan(10);
  });

  it('finds the kind, the dates and the numbers', () => {
    expect(share('kind')).toBeGreaterThanOrEqual(0.95);
    expect(share('dates')).toBeGreaterThanOrEqual(0.95);
    expect(share('numbers')).toBeGreaterThanOrEqual(0.9);
  });
});
