import { ownersOn, parcelOn, placeOn } from '../../../packet/plan/identity.ts';
import { asciiName, codeOf } from '../../../packet/plan/names.ts';
import type { Asked } from '../../../readiness/index.ts';
import type { LotRecord } from '../../../store/index.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import type { TitleStrip } from '../../../typeset/sheets/paper-frame.ts';
import type { PhotoCaption } from '../../../typeset/sheets/photo-sheet.ts';
import { dayInWords, dayWithWeekday } from '../../../vocabulary/days.ts';
import type { AtLot } from '../../context.ts';
import type { RequestInput } from '../../contract/requests.ts';
import { askedOf } from '../asked.ts';

/** What every written paper is made from. */
export interface PaperFrame {
  readonly asked: Asked;
  readonly at: AtLot;
  readonly wanted: RequestInput<'write-paper'>;
}

/** A paper's content, before it is laid out. */
export interface PaperDraft {
  /** Begins the file's name and the margin line. */
  readonly name: string;
  readonly own: boolean;
  readonly kicker: string;
  readonly title: string;
  readonly recipient: string;
  readonly blocks: readonly PaperBlock[];
  readonly draft?: boolean | undefined;
  readonly notes?: readonly string[] | undefined;
  /** Instead of blocks. */
  readonly photos?: { readonly captions: readonly PhotoCaption[]; readonly records: readonly LotRecord[] } | undefined;
}

export function frameOf(at: AtLot, wanted: PaperFrame['wanted']): PaperFrame {
  return { asked: askedOf(at), at, wanted };
}

export function stripOf({ asked }: PaperFrame, draft: PaperDraft): TitleStrip {
  const { lot, day } = asked;
  return {
    owners: ownersOn(lot, day),
    place: placeOn(lot, day),
    parcel: parcelOn(lot, day),
    lot: lot.title,
    date: dayInWords(day),
    recipient: draft.recipient,
    code: codeOf(draft.name),
  };
}

export function headOf({ asked }: PaperFrame, { own, kicker, title }: PaperDraft) {
  return { own, kicker, title, under: `${dayWithWeekday(asked.day)} · ${asked.lot.title}` };
}

/** "hold-pour-heron-lane-2026-04-14.pdf". */
export function fileNameOf({ asked }: PaperFrame, draft: PaperDraft): string {
  return `${asciiName(`${draft.name} ${asked.lot.title} ${asked.day}`).toLowerCase()}.pdf`;
}
