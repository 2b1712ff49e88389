import { expect, test } from 'vitest';
import { edition, keepFile, keepPermit, newLot, page, told } from './lot-in-folder.ts';

test('an edition is seen with its dates, facts, marks, pages and distinct sheet sizes', async () => {
  const lot = newLot();
  const files = await keepFile(lot, 'plans.pdf', [
    page(0, 'a', [2592, 1728]),
    page(1, 'b', [1728, 2592]),
    page(2, 'c', [500, 500]),
    page(3, 'd'),
  ]);
  const kept = lot.keepEdition(
    edition(files, {
      kind: 'plans',
      title: 'Plans',
      parts: [{ rendition: files.rendition, pages: [0, 1, 2], turn: 90 }],
      issued: '2026-03-01',
      effective: '2026-03-02',
      goodThrough: '2027-03-01',
      number: 'A-1',
      issuer: 'Ostrey Drafting',
      revision: 'B',
      facts: [
        { fact: 'bedrooms', value: { sort: 'count', value: 4 } },
        { fact: 'lowest_floor', value: { sort: 'elevation', value: { feet: 412.62, datum: 'NAVD 88' } } },
      ],
      marks: ['signed', 'dated', 'signed'],
    }),
  );
  expect(lot.view().papers).toEqual([
    {
      id: kept.paper,
      kind: 'plans',
      title: 'Plans',
      editions: [
        {
          id: kept.edition,
          paper: kept.paper,
          received: '2026-04-14',
          issued: '2026-03-01',
          effective: '2026-03-02',
          goodThrough: '2027-03-01',
          number: 'A-1',
          issuer: 'Ostrey Drafting',
          revision: 'B',
          facts: {
            bedrooms: { sort: 'count', value: 4 },
            lowest_floor: { sort: 'elevation', value: { feet: 412.62, datum: 'NAVD 88' } },
          },
          marks: ['signed', 'dated'],
          standings: [],
          links: [],
          physicalOnly: false,
          sealed: false,
          readable: true,
          pages: 3,
          sheets: ['arch-d', 'other'],
        },
      ],
    },
  ]);
});

test('the content of an edition is its pages in reading order, its originals, and what keeping noticed', async () => {
  const lot = newLot();
  const first = await keepFile(lot, 'first.pdf', [page(0, 'alpha'), page(1, 'beta')]);
  const second = await keepFile(lot, 'second.pdf', [page(0, 'gamma')]);
  const kept = lot.keepEdition({
    ...edition(first),
    parts: [
      { rendition: second.rendition, turn: 180 },
      { rendition: first.rendition, pages: [1, 0] },
    ],
    originals: [first.original, second.original],
  });
  const content = lot.editionContent([kept.edition])[kept.edition];
  expect(content?.pages).toEqual([
    { rendition: second.rendition, facts: page(0, 'gamma'), turn: 180 },
    { rendition: first.rendition, facts: page(1, 'beta'), turn: 0 },
    { rendition: first.rendition, facts: page(0, 'alpha'), turn: 0 },
  ]);
  expect(content?.originals).toEqual([
    { sha256: first.original, name: 'first.pdf', bytes: 'bytes of first.pdf'.length },
    { sha256: second.original, name: 'second.pdf', bytes: 'bytes of second.pdf'.length },
  ]);
  expect(content?.notes).toEqual(['A script in second.pdf was dropped.', 'A script in first.pdf was dropped.']);
});

test('a kind has one paper per subject, and papers no rule knows one per title', async () => {
  const lot = newLot();
  const files = await keepFile(lot, 'scan.pdf', [page(0, 'x')]);
  const firm = lot.addSubject({ sort: 'engagement', title: 'Framing' });
  const keep = (more: object) => lot.keepEdition(edition(files, more)).paper;
  const plain = keep({});
  expect(keep({ title: 'Another name' })).toBe(plain);
  expect(keep({ subject: firm })).not.toBe(plain);
  const map = keep({ kind: 'other', title: 'Old map' });
  expect(keep({ kind: 'other', title: 'Letter' })).not.toBe(map);
  expect(keep({ kind: 'other', title: 'Old map' })).toBe(map);
  expect(keep({ kind: 'other', title: 'Renamed later', paper: map })).toBe(map);
  expect(lot.view().papers.map((paper) => paper.editions.length)).toEqual([2, 1, 3, 1]);
});

test('an edition without pages is refused unless it is held on paper only', () => {
  const lot = newLot();
  const bare = { kind: 'plans', title: 'Plans', parts: [], originals: [], received: '2026-04-14' } as const;
  expect(() => lot.keepEdition(bare)).toThrow(expect.objectContaining(told('wrong use', /"Plans" has no pages/)));
  const kept = lot.keepEdition({
    ...bare,
    physicalOnly: true,
    copies: [{ place: 'roll in the truck', count: 2, note: 'wet seal' }],
  });
  expect(lot.copies(kept.edition)).toEqual([{ place: 'roll in the truck', count: 2, note: 'wet seal' }]);
  expect(lot.view().papers[0]?.editions[0]).toMatchObject({ physicalOnly: true, pages: 0, sheets: [] });
});

test('pages, files, papers, subjects and editions that are not there are refused, and nothing is half kept', async () => {
  const lot = newLot();
  const files = await keepFile(lot, 'scan.pdf', [page(0, 'x')]);
  const refused: readonly [object, string, RegExp][] = [
    [{ parts: [{ rendition: files.rendition, pages: [1] }] }, 'wrong use', /no page 2; the file has 1 pages/],
    [{ parts: [{ rendition: '0'.repeat(64) }] }, 'not found', /not in the lot/],
    [{ originals: ['0'.repeat(64)] }, 'not found', /no such file/],
    [{ subject: 's-none' }, 'not found', /no such subject/],
    [{ paper: 'p-none' }, 'not found', /no such paper/],
    [{ links: [{ word: 'replaces', to: 'e-none' }] }, 'not found', /no such edition/],
  ];
  for (const [more, code, say] of refused) {
    expect(() => lot.keepEdition(edition(files, more))).toThrow(
      expect.objectContaining({ code, message: expect.stringMatching(say) }),
    );
  }
  expect(lot.view().papers).toEqual([]);
  expect(lot.acts()).toHaveLength(1);
});

test('facts keep where they stand on the paper, and setting them anew changes only what differs', async () => {
  const lot = newLot();
  const { edition: id } = await keepPermit(lot);
  const facts = lot.facts(id);
  expect(facts).toEqual([
    { fact: 'bedrooms', value: { sort: 'count', value: 3 }, page: 1, place: { x: 1, y: 2, width: 3, height: 4 } },
  ]);
  const before = lot.acts().length;
  lot.setFacts(id, facts);
  expect(lot.acts()).toHaveLength(before);
  lot.setFacts(id, [{ fact: 'fan_flow', value: { sort: 'flow', value: 0.1 + 0.2 } }]);
  expect(lot.view().papers[0]?.editions[0]?.facts).toEqual({ fan_flow: { sort: 'flow', value: 0.1 + 0.2 } });
});

test('a sealed rendition makes its edition sealed without anyone saying so', async () => {
  const lot = newLot();
  const plain = await keepFile(lot, 'scan.pdf', [page(0, 'x')]);
  const { original, rendition } = await keepFile(lot, 'plans.pdf', [page(0, 'x')], true);
  lot.keepEdition(edition({ original, rendition }, { readable: false }));
  lot.keepEdition(edition(plain));
  const editions = lot.view().papers.flatMap((paper) => paper.editions);
  expect(editions.map((one) => [one.sealed, one.readable])).toEqual([
    [true, false],
    [false, true],
  ]);
});

test('standings and links are told in the order they came', async () => {
  const lot = newLot();
  const first = await keepPermit(lot);
  const second = lot.keepEdition(edition(first.files));
  lot.recordStanding(second.edition, { office: 'plan-review', word: 'received', day: '2026-04-14' });
  lot.recordStanding(second.edition, { office: 'plan-review', word: 'approved', day: '2026-04-20', note: 'as noted' });
  lot.linkEditions(second.edition, [{ word: 'replaces', to: first.edition }]);
  lot.linkEditions(second.edition, [{ word: 'replaces', to: first.edition }]);
  expect(lot.view().papers[0]?.editions[1]).toMatchObject({
    standings: [
      { office: 'plan-review', word: 'received', day: '2026-04-14' },
      { office: 'plan-review', word: 'approved', day: '2026-04-20', note: 'as noted' },
    ],
    links: [{ word: 'replaces', to: first.edition }],
  });
  expect(() => lot.linkEditions(first.edition, [{ word: 'amends', to: first.edition }])).toThrow(
    expect.objectContaining({ code: 'wrong use' }),
  );
});

test('practices stay readable by hash after a newer one is in force, with layers and the offices’ words', () => {
  const lot = newLot();
  const old = { sha: lot.practiceSha(), practice: lot.practice() };
  const layer = { name: 'by word 2026-04-02', text: 'errands: {permit-apply: {needs: {plans: {copies: 3}}}}\n' };
  const word = {
    office: 'plan-review',
    who: 'R. Amsel',
    day: '2026-04-02',
    said: 'three sets of plans',
    layer,
  } as const;
  lot.act('The clerk said otherwise', () => {
    lot.addOfficeWord(word);
    lot.setPractice({ practice: { ...old.practice, title: 'New' }, layers: [...lot.layers(), layer] });
  });
  expect(lot.practice().title).toBe('New');
  expect(lot.practiceBySha(old.sha)).toEqual(old.practice);
  expect(lot.layers().map(({ name }) => name)).toEqual(['common', 'by word 2026-04-02']);
  expect(lot.officeWords()).toMatchObject([word]);
  lot.undo();
  expect(lot.practiceSha()).toBe(old.sha);
  expect(lot.officeWords()).toEqual([]);
});
