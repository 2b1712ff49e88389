import { hostname } from 'node:os';
import { join } from 'node:path';
import { commonLayers } from '../../core/desk/templates.ts';
import { figures } from '../../core/figures/index.ts';
import { readPractice } from '../../core/practice/index.ts';
import { createLot, type Lot } from '../../core/store/index.ts';
import { addDays, asDay } from '../../core/vocabulary/days.ts';

const begun = asDay('2025-03-03');

/** Every kind the practice knows once, certificates for every firm, and letters that no rule knows. */
function fillPapers(lot: Lot, count: number): void {
  const kinds = Object.values(lot.practice().papers);
  const firms = Array.from({ length: 24 }, (_, n) =>
    lot.addSubject({
      sort: 'engagement',
      title: `Firm ${n + 1} (trade ${n + 1})`,
      firm: `Firm ${n + 1}`,
      trade: `trade ${n + 1}`,
      from: addDays(begun, n * 9),
      to: addDays(begun, n * 9 + 200),
    }),
  );
  const { papers } = lot.practice();
  for (let n = 0; n < count; n += 1) {
    const kind = n < kinds.length + firms.length * 3 ? kinds[n % kinds.length] : papers.other;
    if (kind === undefined) return;
    lot.keepEdition({
      kind: kind.id,
      title: kind.id === 'other' ? `Letter ${n + 1}` : kind.title,
      subject: kind.each === 'engagement' ? firms[n % firms.length] : undefined,
      parts: [],
      originals: [],
      received: addDays(begun, n),
      issued: addDays(begun, n),
      goodThrough: n % 3 === 0 ? addDays(begun, n + 365) : undefined,
      number: `N-${1000 + n}`,
      physicalOnly: true,
    });
  }
}

function fillRecords(lot: Lot, count: number): void {
  const trades = ['framing', 'electrical', 'plumbing', 'masonry'];
  for (let n = 0; n < count; n += 1) {
    lot.addRecord({
      sort: 'photo',
      day: addDays(begun, n % 300),
      title: `Wall ${n % 40}, before it was covered`,
      place: `room ${n % 12}`,
      trade: trades[n % trades.length],
    });
  }
}

/** A lot as it stands late in a large build: many papers of every kind, firms, photos by the thousand. */
export function makeLargeLot(folder: string, size: { readonly papers: number; readonly photos: number }): string {
  const layers = commonLayers();
  const practice = readPractice(layers, { figures: Object.keys(figures) });
  const path = join(folder, 'large-lot');
  const holder = { program: 'window tests', host: hostname(), pid: process.pid };
  using lot = createLot(path, { title: 'Large lot', practice, layers, day: begun, holder });
  lot.act('Filled', () => {
    lot.setTarget(asDay('2027-03-12'));
    for (const { id, sort, choices } of Object.values(practice.questions)) {
      if (sort === 'choice' && choices[0] !== undefined) lot.answer(id, { sort: 'choice', value: choices[0] });
      if (sort === 'yes or no') lot.answer(id, { sort: 'yes or no', value: true });
      if (sort === 'count') lot.answer(id, { sort: 'count', value: 3 });
    }
    fillPapers(lot, size.papers);
    fillRecords(lot, size.photos);
  });
  return path;
}
