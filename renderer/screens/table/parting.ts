import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { areFree, cutsLeft, type PartLeft, withKept } from './cuts-left.ts';
import { type Draft, emptyDraft, type Parting, pointAt, putDraft, type TableState, useTable } from './table-state.ts';

/** The draft of the file as a whole goes by this among those of its parts. */
const whole = 'whole';

/** What is on the card: the draft, and the one file it is about. */
export interface OnCard {
  readonly id: string;
  readonly draft: Draft;
  readonly item: TableItem;
}

/** What was said of this very file; nothing of another that bore its name before. */
export function partingOf({ parted }: Pick<TableState, 'parted'>, { item, since }: TableItem): Parting | undefined {
  const found = parted[item];
  return found?.since === since ? found : undefined;
}

function put({ item, since }: TableItem, parting: Omit<Parting, 'since'>): void {
  useTable.setState(({ parted }) => ({ parted: { ...parted, [item]: { ...parting, since } } }));
}

function heldOf(item: TableItem): Parting['drafts'] {
  return partingOf(useTable.getState(), item)?.drafts ?? {};
}

/**
 * The draft of one part: as it was left, or a new one. Of what was filled in for another, only how the file is turned
 * and opened goes for this one too.
 */
export function partDraft(item: TableItem, cut: PartLeft, from?: Draft): Draft {
  const held = heldOf(item)[cut.part];
  if (held !== undefined && areFree(item, held.picks[item.item] ?? '')) return held;
  const begun = {
    ...emptyDraft([item.item], cut.kind),
    turns: from?.turns ?? {},
    password: from?.password,
    opened: from?.opened,
  };
  return { ...(held ?? begun), part: cut.part, picks: { [item.item]: cut.pages } };
}

/** The file on view turns to the first page of its draft. */
export function pointAtFirst({ files, picks }: Draft): void {
  const first = Number.parseInt(picks[files[0] ?? ''] ?? '', 10);
  pointAt({ page: Number.isNaN(first) ? 0 : first - 1 });
}

/** The card turns to one of the parts; what is on it is held until it is turned to again. */
export function turnToPart({ id, draft, item }: OnCard, cut: PartLeft): void {
  put(item, { how: 'one by one', drafts: { ...heldOf(item), [draft.part ?? whole]: draft } });
  const next = partDraft(item, cut, draft);
  putDraft(id, next);
  pointAtFirst(next);
}

/** All its pages are one paper; where some are kept already, all that are left. */
export function asOnePaper({ id, draft, item }: OnCard): void {
  const held = heldOf(item);
  const back = item.keptPages.length === 0 ? held[whole] : undefined;
  put(item, { how: 'one paper', drafts: draft.part === undefined ? held : { ...held, [draft.part]: draft } });
  const picks = item.leftPages === undefined ? {} : { [item.item]: item.leftPages };
  const next = { ...(back ?? draft), part: undefined, picks };
  putDraft(id, next);
  pointAtFirst(next);
}

/** It is asked again whether the file is several papers. */
export function askAgain(item: TableItem): void {
  put(item, { how: undefined, drafts: heldOf(item) });
}

/** The draft that follows one just kept, where its file is kept part by part; undefined after the last. */
export function nextPart(kept: Draft, items: readonly TableItem[]): Draft | undefined {
  const item = items.find((each) => each.item === kept.files[0]);
  if (item === undefined || kept.leaveRest) return undefined;
  const parting = partingOf(useTable.getState(), item);
  if (parting?.how !== 'one by one') return undefined;
  put(item, {
    ...parting,
    drafts: Object.fromEntries(Object.entries(parting.drafts).filter(([part]) => part !== kept.part)),
  });
  const after = withKept(item, kept.picks[item.item] ?? '');
  const [cut] = cutsLeft(after);
  return cut === undefined ? undefined : partDraft(after, cut, kept);
}
