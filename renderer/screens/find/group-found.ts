import type { EditionRow, FoundRow, PaperRow } from '../../../core/desk/contract/answers.ts';

/** One place the words were found at; of a paper with several editions, which. */
export interface FoundPlace extends FoundRow {
  /** "edition 1 of 2", where there are several and this is not the one that counts. */
  readonly older?: string | undefined;
}

/** A paper, errand or office with every place the words were found at. */
export interface FoundEntry {
  readonly id: string;
  readonly title: string;
  readonly sort: FoundRow['sort'];
  /** Of a paper, where the list knows it. */
  readonly paper?: PaperRow | undefined;
  readonly places: readonly FoundPlace[];
}

export interface FoundGroup {
  readonly sort: FoundRow['sort'];
  readonly title: string;
  readonly entries: readonly FoundEntry[];
}

const titles = { paper: 'Papers', errand: 'Errands', office: 'Offices' } as const;

function idOf({ sort, paper, errand, subject = '', office, title }: FoundRow): string {
  return `${sort} ${paper ?? errand ?? office ?? title} ${subject}`.trimEnd();
}

function olderOf(editions: readonly EditionRow[], edition: string | undefined): string | undefined {
  const at = editions.findIndex((each) => each.edition === edition);
  if (editions.length < 2 || at < 0 || editions[at]?.current === true) return undefined;
  return `edition ${at + 1} of ${editions.length}`;
}

/** What the edition that counts says stands first; an older one that says the very same says nothing new. */
function placesOf(rows: readonly FoundRow[], paper: PaperRow | undefined): readonly FoundPlace[] {
  const places = rows.map((row): FoundPlace => ({ ...row, older: olderOf(paper?.editions ?? [], row.edition) }));
  const said = new Set<string>();
  const isNew = ({ page, snippet }: FoundPlace): boolean => {
    const what = `${page ?? ''} ${snippet}`;
    const fresh = !said.has(what);
    said.add(what);
    return fresh;
  };
  const counting = places.filter(({ older }) => older === undefined).filter(isNew);
  const older = places.filter((place) => place.older !== undefined).filter(isNew);
  return [...counting, ...older];
}

/** What was found, each thing once, in the order the desk ranked it. */
export function groupFound(found: readonly FoundRow[], papers: readonly PaperRow[]): readonly FoundGroup[] {
  const entries = new Map<string, FoundRow[]>();
  for (const row of found) entries.set(idOf(row), [...(entries.get(idOf(row)) ?? []), row]);
  const sorts = [...new Set(found.map(({ sort }) => sort))];
  return sorts.map((sort) => ({
    sort,
    title: titles[sort],
    entries: [...entries].flatMap(([id, rows]): readonly FoundEntry[] => {
      const [first] = rows;
      if (first === undefined || first.sort !== sort) return [];
      const paper = first.paper === undefined ? undefined : papers.find((each) => each.paper === first.paper);
      return [{ id, title: first.title, sort, paper, places: placesOf(rows, paper) }];
    }),
  }));
}

const reasons: Readonly<Record<FoundRow['why'], string>> = {
  title: 'in its title',
  number: 'in its number',
  office: 'by its office',
  facts: 'in what is noted of it',
  page: 'on the page',
  visit: 'in what came of it',
  word: 'in what they told you',
};

/** Where the words were found, in words. */
export function whyFound({ why, page, sort, when }: FoundRow): string {
  if (why === 'page' && page !== undefined) return `on page ${page}`;
  if (when !== undefined) return why === 'word' ? `what they told you on ${when}` : when;
  if (why === 'facts' && sort !== 'paper') return 'in what is written of it';
  return reasons[why];
}

/** "3 papers, 1 errand". */
export function countInWords(groups: readonly FoundGroup[]): string {
  return groups.map(({ sort, entries }) => `${entries.length} ${sort}${entries.length === 1 ? '' : 's'}`).join(', ');
}
