import { expect, test } from 'vitest';
import type { Lot } from '../../core/store/index.ts';
import { edition, keepFile, keepPermit, newLot, office, page, practice } from './lot-in-folder.ts';

function found(lot: Lot, text: string): readonly string[] {
  return lot.search(text).map((hit) => `${hit.title}: ${hit.why}${hit.page === undefined ? '' : ` ${hit.page}`}`);
}

test('a paper is found by its title, number, office, facts and the text of its pages, and each hit says why', async () => {
  const lot = newLot();
  await keepPermit(lot, {
    issuer: 'Sanitarian K. Oduya',
    facts: [
      { fact: 'parcel', value: { sort: 'parcel number', value: '041-22-0070' } },
      { fact: 'valuation', value: { sort: 'money', value: 31_250_000 } },
      { fact: 'lowest_floor', value: { sort: 'elevation', value: { feet: 412.6, datum: 'NAVD 88' } } },
      { fact: 'cover_to', value: { sort: 'day', value: '2026-04-19' } },
      { fact: 'gas', value: { sort: 'yes or no', value: true } },
    ],
  });
  expect(found(lot, 'septic')).toEqual(['Septic permit: title']);
  expect(found(lot, 'SP-2026-117')).toEqual(['Septic permit: number']);
  expect(found(lot, 'sp2026117')).toEqual(['Septic permit: number']);
  expect(found(lot, 'brindlemoor environ')).toEqual(['Septic permit: office']);
  expect(lot.search('environmental')[0]?.snippet).toBe('Sanitarian K. Oduya · Brindlemoor Environmental Health');
  expect(found(lot, 'oduya')).toEqual(['Septic permit: office']);
  expect(found(lot, '312,500')).toEqual(['Septic permit: facts']);
  expect(found(lot, '412.6')).toEqual(['Septic permit: facts']);
  expect(found(lot, '19 apr')).toEqual(['Septic permit: facts']);
  expect(found(lot, 'true')).toEqual([]);
  expect(found(lot, '041-22-0070')).toEqual(['Septic permit: facts', 'Septic permit: page 2']);
  expect(found(lot, '041220')).toEqual(['Septic permit: facts', 'Septic permit: page 2']);
  expect(found(lot, 'septic SP-2026')).toEqual(['Septic permit: title']);
});

test('accents may be left out or typed, in any case', async () => {
  const lot = newLot();
  await keepPermit(lot);
  for (const typed of ['hanh nguyen', 'Hạnh', 'NGUYỄN', 'nguyễn'.normalize('NFD'), 'lindqv']) {
    const [hit] = lot.search(typed);
    expect(hit).toMatchObject({ why: 'page', page: 1 });
    expect(hit?.marks.map(([start, end]) => hit.snippet.slice(start, end)).join(' ')).toMatch(/Hạnh|Nguyễn|Lindqvist/);
  }
});

test('no sign a person types is an error', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const odd = [
    '"',
    '""',
    "'",
    'sewage"',
    '"sewage',
    '(',
    'NEAR(',
    'a AND',
    'NOT',
    '*',
    'text:',
    '{title}:',
    '^',
    '-',
    '--',
    ';',
    '\u0000',
    '%',
    '_',
    '\\',
    '🏠',
    '١٢٣',
    'x'.repeat(5000),
  ];
  for (const typed of odd) expect(() => lot.search(typed)).not.toThrow();
  expect(found(lot, 'sewage"')).toEqual(['Septic permit: page 1']);
  expect(found(lot, 'sewage - permit')).toEqual(['Septic permit: page 1']);
});

test('quoted words must stand together', async () => {
  const lot = newLot();
  await keepPermit(lot);
  expect(found(lot, '"sewage permit"')).toHaveLength(1);
  expect(found(lot, '"permit sewage"')).toHaveLength(0);
  expect(found(lot, 'permit sewage')).toHaveLength(1);
});

test('page numbers follow the reading order of the edition, over parts and chosen pages', async () => {
  const lot = newLot();
  const first = await keepFile(lot, 'first.pdf', [page(0, 'alpha'), page(1, 'beta'), page(2, 'gamma')]);
  const second = await keepFile(lot, 'second.pdf', [page(0, 'delta'), page(1, 'epsilon')]);
  lot.keepEdition({
    ...edition(first),
    parts: [{ rendition: first.rendition, pages: [2, 0] }, { rendition: second.rendition }],
  });
  expect(['gamma', 'alpha', 'beta', 'delta', 'epsilon'].map((word) => lot.search(word)[0]?.page)).toEqual([
    1,
    2,
    undefined,
    3,
    4,
  ]);
});

test('a page that repeats a word in every paper does not crowd the others out', async () => {
  const lot = newLot();
  const long = await keepFile(
    lot,
    'long.pdf',
    Array.from({ length: 40 }, (_, i) => page(i, `drainfield ${i}`)),
  );
  const short = await keepFile(lot, 'short.pdf', [page(0, 'drainfield sketch')]);
  lot.keepEdition({ ...edition(short), kind: 'deed', title: 'Deed' });
  lot.keepEdition(edition(long, { title: 'Long one' }));
  const hits = found(lot, 'drainfield');
  expect(hits).toContain('Deed: page 1');
  expect(hits.filter((hit) => hit.startsWith('Long one'))).toHaveLength(3);
  expect(lot.search('drainfield', { limit: 2 })).toHaveLength(2);
  expect(lot.search('drainfield', { limit: 0 })).toEqual([]);
});

test('corrections, renamed papers, subjects and a new practice are found by their new words only', async () => {
  const lot = newLot();
  const firm = lot.addSubject({ sort: 'engagement', title: 'Tank work', firm: 'Ostrey Excavating' });
  const permit = await keepPermit(lot, { subject: firm });
  lot.setPaperTitle(permit.paper, 'Onsite wastewater paper');
  lot.correctEdition(permit.edition, { number: 'XQ-9' });
  lot.setFacts(permit.edition, [{ fact: 'bedrooms', value: { sort: 'count', value: 77 } }]);
  const offices = { ...practice.offices, 'environmental-health': office('environmental-health', 'Health District') };
  lot.setPractice({ practice: { ...practice, offices }, layers: [] });
  expect(['wastewater', 'XQ-9', '77', 'health district', 'ostrey'].map((word) => lot.search(word).length)).toEqual([
    1, 1, 1, 1, 1,
  ]);
  expect(['SP-2026-117', 'brindlemoor'].map((word) => lot.search(word).length)).toEqual([0, 0]);
});

test('a paper without editions is found by its title', () => {
  const lot = newLot();
  lot.setNotApplicable({ kind: 'water-test', title: 'Water test' }, 'city water');
  expect(lot.search('water')).toMatchObject([{ title: 'Water test', why: 'title', edition: undefined }]);
});
