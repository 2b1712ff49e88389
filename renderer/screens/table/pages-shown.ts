import { useMemo } from 'react';
import type { ReadAnswer, ReadValue, TableItem } from '../../../core/desk/contract/screen-answers.ts';
import type { PlaceShown } from '../papers/PageReader.tsx';
import type { PointedAt, ReaderPage } from '../papers/reader-pages.ts';
import { pickedPages } from './picked-pages.ts';
import { type Draft, type Pointed, useTable } from './table-state.ts';

export interface TableLook {
  readonly draft: Draft;
  readonly read: ReadAnswer | undefined;
}

/** The file and its page behind each page of a draft, in the draft's order. */
function draftPages({ draft, read }: TableLook): readonly { readonly file: string; readonly page: number }[] {
  return draft.files.flatMap((file, n) =>
    pickedPages(draft.picks[file] ?? '', read?.sound[n]?.pages ?? 0).map((page) => ({ file, page })),
  );
}

function valuesOf(read: ReadAnswer | undefined): readonly ReadValue[] {
  if (read === undefined) return [];
  const { issued, effective, goodThrough, number, issuer, facts } = read;
  return [issued, effective, goodThrough, number, issuer, ...Object.values(facts)].flatMap((value) => value ?? []);
}

interface Shown {
  readonly pages: readonly ReaderPage[];
  readonly at: PointedAt | undefined;
  readonly places: readonly PlaceShown[];
}

/** Where to turn to in this file: what was asked for on the draft's pages, or a page of the file itself. */
function turnedTo(pointed: Pointed | undefined, item: TableItem, look: TableLook): PointedAt | undefined {
  if (pointed === undefined) return undefined;
  if (pointed.place === undefined) return { page: pointed.page };
  const there = draftPages(look)[pointed.page];
  return there?.file === item.item ? { page: there.page, place: pointed.place } : undefined;
}

/** A file's pages as the draft turns them, with every place that was read off them. */
export function useShown(item: TableItem, look: TableLook, pages: readonly ReaderPage[]): Shown {
  const pointed = useTable((state) => state.pointed);
  const { draft, read } = look;
  const turn = draft.turns[item.item] ?? 0;
  return useMemo(() => {
    const order = draftPages({ draft, read });
    const places = valuesOf(read).flatMap(({ page, place, sureness, words }): PlaceShown[] => {
      const there = order[page];
      return there?.file === item.item ? [{ page: there.page, place, sureness, words }] : [];
    });
    return {
      pages: pages.map((page) => ({ ...page, turn })),
      at: turnedTo(pointed, item, { draft, read }),
      places,
    };
  }, [item, draft, read, pages, turn, pointed]);
}
