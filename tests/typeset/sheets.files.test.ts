import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Fonts, loadFonts } from '../../core/packet/sheets/fonts.ts';
import type { Block } from '../../core/typeset/flow.ts';
import { drawMark } from '../../core/typeset/marks.ts';
import { frame } from '../../core/typeset/measures.ts';
import { Pen } from '../../core/typeset/pen.ts';
import { type CoverSheet, coverSheet } from '../../core/typeset/sheets/cover.ts';
import { errandSheets } from '../../core/typeset/sheets/errand-sheet.ts';
import { type IndexRow, indexSheets } from '../../core/typeset/sheets/index-sheet.ts';
import { leafSheet } from '../../core/typeset/sheets/leaf.ts';
import { expectTidy, inkOf, textsOf, wordsOf } from './written.ts';

/** Real faces, read from their packages: widths here are the widths on paper. */
let fonts: Fonts;
beforeAll(async () => {
  fonts = await loadFonts();
});

const margin = { code: 'PERMIT-APPLY', position: '14 of 92', tabs: 11, tab: 3, draft: true };
const anyText = fc.oneof(
  fc.string({ maxLength: 120, unit: 'grapheme' }),
  fc.string({ maxLength: 90, unit: fc.constantFrom('W', 'm', '8', '-', ' ', 'ễ') }),
  fc.constantFrom('', 'Hạnh Nguyễn Lindqvist', 'Þórdís Æ', 'Αθηνά', 'Ольга', 'x'.repeat(300)),
);
const runs = { numRuns: 60 } as const;

const rowOf = (more: Partial<IndexRow> = {}): IndexRow => ({
  tab: '3',
  mark: 'in hand',
  paper: 'Septic construction permit',
  issuedBy: 'Environmental Health',
  number: 'OSW-2025-00418',
  dated: '21 Oct 2025',
  goodThrough: '21 Apr 2027',
  sheets: '44–50',
  ...more,
});
const index = (rows: readonly IndexRow[]) =>
  indexSheets(
    {
      title: 'Permit',
      lot: 'Heron Lane',
      rows,
      legend: [{ mark: 'in hand', word: 'in this packet' }],
      margin: () => margin,
    },
    fonts,
    new Set(),
  );

describe('the index', () => {
  it('carries 120 rows over several sheets, each row once and in order, its head on every sheet', () => {
    const sheets = index(Array.from({ length: 120 }, (_, n) => rowOf({ tab: `${n + 1}`, number: `N-${n + 1}.` })));
    expect(sheets.length).toBeGreaterThan(3);
    const numbers = sheets.flatMap((sheet) => wordsOf(sheet).match(/N-\d+\./g) ?? []);
    expect(numbers).toEqual(Array.from({ length: 120 }, (_, n) => `N-${n + 1}.`));
    for (const sheet of sheets) {
      expect(wordsOf(sheet)).toContain('issued by');
      expectTidy(sheet, fonts);
    }
    expect(sheets.slice(1).every((sheet) => wordsOf(sheet).includes('continued'))).toBe(true);
  });

  it('keeps every cell in its own column and every row off the foot, whatever the papers are called', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ paper: anyText, issuedBy: anyText, number: anyText, state: anyText }), { maxLength: 9 }),
        (rows) => {
          for (const sheet of index(rows.map((row) => rowOf(row)))) {
            expectTidy(sheet, fonts);
            for (const op of textsOf(sheet)) {
              if (op.turn !== 90 && op.y > 40) expect(inkOf(op, fonts).bottom).toBeGreaterThan(frame.bottom - 4);
            }
          }
        },
      ),
      runs,
    );
  });

  it('says so where there is nothing to list', () => {
    const [sheet] = index([]);
    expect(sheet === undefined ? '' : wordsOf(sheet)).toContain('no papers yet');
  });

  it('links a row over its whole width to its first sheet', () => {
    const [sheet] = index([rowOf({ toSheet: 7 }), rowOf()]);
    expect(sheet?.links).toHaveLength(1);
    expect(sheet?.links[0]).toMatchObject({ toSheet: 7, x: frame.left, width: frame.right - frame.left });
  });
});

const cover = (more: Partial<CoverSheet>): CoverSheet => ({
  margin,
  title: 'Apply for the building permit',
  recipient: 'Plan Review',
  lot: 'Heron Lane',
  place: '418 Heron Lane',
  parcel: '041-22-0070',
  owners: 'Hạnh Nguyễn Lindqvist, Tomás Lindqvist',
  date: '14 Apr 2026',
  sheets: '92',
  count: '11 papers, 92 sheets',
  holds: [{ from: 'Environmental Health', papers: 'Septic construction permit' }],
  lists: [{ title: 'To follow', items: ['Driveway permit'] }],
  ...more,
});

describe('the cover', () => {
  it('leaves three by three inches at the upper right empty for the office, whatever it is told', () => {
    fc.assert(
      fc.property(
        anyText,
        anyText,
        anyText,
        fc.array(anyText, { maxLength: 12 }),
        (title, recipient, owners, items) => {
          const sheet = coverSheet(
            cover({
              title,
              recipient,
              owners,
              lot: title,
              place: owners,
              holds: items.map((from) => ({ from, papers: title })),
              lists: [{ title: 'To follow', items }],
            }),
            fonts,
            new Set(),
          );
          expectTidy(sheet, fonts);
          const space = {
            left: frame.right - 224,
            right: frame.right - 8,
            bottom: frame.top - 224,
            top: frame.top - 8,
          };
          for (const ink of textsOf(sheet).map((op) => inkOf(op, fonts))) {
            const touches =
              ink.right > space.left && ink.left < space.right && ink.top > space.bottom && ink.bottom < space.top;
            expect(touches).toBe(false);
          }
        },
      ),
      runs,
    );
  });

  it('says whose paper it is, and draws nothing round that could pass for a stamp', () => {
    const sheet = coverSheet(cover({}), fonts, new Set());
    expect(wordsOf(sheet)).toContain('Prepared by the owner. Not an official form.');
    expect(sheet.ops.filter((op) => op.op === 'shape' && op.points.length > 6)).toEqual([]);
  });

  it('says DRAFT in the left margin only, where it is one', () => {
    const words = textsOf(coverSheet(cover({}), fonts, new Set())).filter(({ text }) => text === 'DRAFT');
    expect(words.map(({ x }) => x < frame.left)).toEqual([true, true]);
    const fair = coverSheet(cover({ margin: { ...margin, draft: false } }), fonts, new Set());
    expect(wordsOf(fair)).not.toContain('DRAFT');
  });
});

describe('dividers and out cards', () => {
  it('stay tidy with any words, and put the tab at the height of its kind of office', () => {
    fc.assert(
      fc.property(anyText, anyText, fc.integer({ min: 0, max: 11 }), fc.boolean(), (title, value, position, out) => {
        const sheet = leafSheet(
          {
            margin,
            tab: 104,
            title,
            out,
            edge: { position, of: 12, word: 'licensed person' },
            fields: [
              { label: 'issued by', value },
              { label: 'number', value, mono: true },
            ],
            says: [value],
            findings: [{ bar: 'refused', say: value, remedy: title }],
          },
          fonts,
          new Set(),
        );
        expectTidy(sheet, fonts);
        const tab = textsOf(sheet).find(({ text, x }) => text === '104' && x > 560);
        const height = (frame.top - frame.bottom) / 12;
        expect(tab?.y).toBeLessThan(frame.top - position * height);
        expect(tab?.y).toBeGreaterThan(frame.top - (position + 1) * height);
      }),
      runs,
    );
  });
});

describe('the errand sheet', () => {
  const sheets = (blocks: readonly Block[]) =>
    errandSheets(
      { title: 'Apply', under: 'Heron Lane', blocks, margin: () => ({ ...margin, tabs: 0, draft: false }) },
      fonts,
      new Set(),
    );

  it('is headed PRIVATE on every sheet and cuts no line in two over its sheets', () => {
    const block = fc.oneof(
      fc.record({ block: fc.constant('heading' as const), text: fc.constant('To carry') }),
      fc.record({ block: fc.constant('item' as const), text: anyText, more: anyText }),
      fc.record({ block: fc.constant('field' as const), label: fc.constant('street'), value: anyText }),
      fc.record({
        block: fc.constant('finding' as const),
        bar: fc.constantFrom('refused', 'questioned', 'ask first', 'good to know'),
        says: fc.array(fc.record({ say: anyText, remedy: anyText }), { maxLength: 3 }),
        lines: fc.array(fc.record({ label: fc.constant('Why'), text: anyText }), { maxLength: 3 }),
      }),
    );
    fc.assert(
      fc.property(fc.array(block, { maxLength: 40 }), (blocks) => {
        for (const sheet of sheets(blocks)) {
          expect(textsOf(sheet).some(({ text }) => text === 'PRIVATE: DO NOT HAND IN')).toBe(true);
          expectTidy(sheet, fonts);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('keeps a heading on the sheet of what it heads', () => {
    for (let n = 20; n < 40; n += 1) {
      const filler = Array.from({ length: n }, (): Block => ({ block: 'field', label: 'hours', value: 'Mon to Fri' }));
      for (const sheet of sheets([...filler, { block: 'heading', text: 'HEAD' }, { block: 'item', text: 'ITEM' }])) {
        expect(wordsOf(sheet).includes('HEAD')).toBe(wordsOf(sheet).includes('ITEM'));
      }
    }
  });

  it('tells the four weights apart by shape, not by colour alone', () => {
    const shapes = (['refused', 'questioned', 'ask first', 'good to know'] as const).map((bar) => {
      const [sheet] = sheets([{ block: 'finding', bar, says: [{ say: 'Something.', remedy: '' }], lines: [] }]);
      const marks = sheet?.ops.filter((op) => op.op !== 'text' && op.op !== 'line') ?? [];
      const plain = marks.map((op) =>
        op.op === 'shape'
          ? `shape ${op.closed} ${op.points.length}`
          : `box ${op.op === 'rect' && op.fill !== undefined}`,
      );
      return plain.join(', ');
    });
    expect(new Set(shapes).size).toBe(4);
  });
});

describe('the marks', () => {
  it('differ from each other in shape, so that black and white print tells them apart', () => {
    const marks = [
      'in hand',
      'not asked for',
      'awaited',
      'lapsing',
      'lapsed',
      'beside',
      'by hand',
      'missing',
      'to follow',
      'see tab',
    ] as const;
    const shapes = marks.map((mark) => {
      const pen = new Pen(fonts);
      drawMark(pen, mark, { x: 50, y: 50 });
      return JSON.stringify(
        pen.drawing().ops.map((op) => ({ ...op, tone: undefined, fill: 'fill' in op, stroke: 'stroke' in op })),
      );
    });
    expect(new Set(shapes).size).toBe(marks.length);
  });
});
