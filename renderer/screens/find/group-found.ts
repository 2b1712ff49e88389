import type { FoundRow } from '../../../core/desk/contract/answers.ts';

/** A paper, errand or office with every place the words were found at. */
export interface FoundEntry {
  readonly id: string;
  readonly title: string;
  readonly sort: FoundRow['sort'];
  readonly places: readonly FoundRow[];
}

export interface FoundGroup {
  readonly sort: FoundRow['sort'];
  readonly title: string;
  readonly entries: readonly FoundEntry[];
}

const titles = { paper: 'Papers', errand: 'Errands', office: 'Offices' } as const;

function idOf({ sort, paper, errand, office, title }: FoundRow): string {
  return `${sort} ${paper ?? errand ?? office ?? title}`;
}

/** What was found, each thing once, in the order the desk ranked it; papers first unless another sort ranks above. */
export function groupFound(found: readonly FoundRow[]): readonly FoundGroup[] {
  const entries = new Map<string, FoundEntry & { places: FoundRow[] }>();
  for (const row of found) {
    const id = idOf(row);
    const entry = entries.get(id) ?? { id, title: row.title, sort: row.sort, places: [] };
    entry.places.push(row);
    entries.set(id, entry);
  }
  const sorts = [...new Set(found.map(({ sort }) => sort))];
  return sorts.map((sort) => ({
    sort,
    title: titles[sort],
    entries: [...entries.values()].filter((entry) => entry.sort === sort),
  }));
}

const reasons: Readonly<Record<FoundRow['why'], string>> = {
  title: 'in its title',
  number: 'in its number',
  office: 'by its office',
  facts: 'among what is noted of it',
  page: 'on the page',
};

/** Where the words were found, in words. */
export function whyFound({ why, page, sort }: FoundRow): string {
  if (why === 'page' && page !== undefined) return `on page ${page}`;
  if (why === 'facts' && sort !== 'paper') return 'in what is written of it';
  return reasons[why];
}

/** "3 papers, 1 errand". */
export function countInWords(groups: readonly FoundGroup[]): string {
  return groups.map(({ sort, entries }) => `${entries.length} ${sort}${entries.length === 1 ? '' : 's'}`).join(', ');
}
