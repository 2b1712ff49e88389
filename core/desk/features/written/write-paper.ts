import { rm, writeFile } from 'node:fs/promises';
import type { Drawing } from '../../../typeset/drawing.ts';
import { photoSheets } from '../../../typeset/sheets/photo-sheet.ts';
import { writtenPaper } from '../../../typeset/sheets/written-paper.ts';
import { type AtLot, onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import type { WrittenAnswer } from '../../contract/written-answers.ts';
import type { PaperSort } from '../../contract/written-requests.ts';
import { offerMade } from '../made-files.ts';
import { costBreakdown } from './cost-breakdown.ts';
import { drawRequest } from './draw-request.ts';
import { extensionRequest } from './extension-request.ts';
import { holdSheet } from './hold-sheet.ts';
import { inspectionDay } from './inspection-day.ts';
import { inspectionLog } from './inspection-log.ts';
import { photosFor } from './lay-photos.ts';
import { listOfFirms } from './list-of-firms.ts';
import { fileNameOf, frameOf, headOf, type PaperDraft, type PaperFrame, stripOf } from './paper-frame.ts';
import { phoneList } from './phone-list.ts';
import { photoPaper } from './photo-paper.ts';
import { response } from './response.ts';
import { transmittal } from './transmittal.ts';

const writers: Readonly<Record<PaperSort, (frame: PaperFrame) => PaperDraft>> = {
  'hold-sheet': holdSheet,
  'inspection-day': inspectionDay,
  'phone-list': phoneList,
  'inspection-log': inspectionLog,
  firms: listOfFirms,
  'extension-request': extensionRequest,
  transmittal,
  response,
  'photo-sheet': photoPaper,
  'cost-breakdown': costBreakdown,
  'draw-request': drawRequest,
};

interface Drawn {
  readonly bytes: Uint8Array;
  readonly pages: number;
  readonly notes: readonly string[];
}

/** Lays the paper out and draws it. Loaded on first need, for fonts cost time. */
async function draw(draft: PaperDraft, frame: PaperFrame): Promise<Drawn> {
  const [{ drawSheets }, { loadFonts }] = await Promise.all([
    import('../../../packet/sheets/draw-sheets.ts'),
    import('../../../packet/sheets/fonts.ts'),
  ]);
  const fonts = await loadFonts();
  const replaced = new Set<string>();
  const bytesOf = async (drawings: readonly Drawing[]): Promise<Uint8Array> =>
    (await drawSheets(drawings, fonts)).bytes;
  const paper = { head: headOf(frame, draft), strip: stripOf(frame, draft) };
  const told = (): readonly string[] =>
    replaced.size === 0
      ? []
      : [`No font here has the characters ${[...replaced].join(' ')}: a square stands for each.`];
  if (draft.photos === undefined) {
    const drawings = writtenPaper({ ...paper, blocks: draft.blocks, draft: draft.draft ?? false }, fonts, replaced);
    return { bytes: await bytesOf(drawings), pages: drawings.length, notes: told() };
  }
  const { captions, records } = draft.photos;
  const perSheet = frame.wanted.perSheet === '2' ? 2 : 4;
  const { drawings, places } = photoSheets({ ...paper, captions, perSheet }, fonts, replaced);
  const { layPhotos } = await import('../../../packet/sheets/draw-photos.ts');
  const bytes = await layPhotos(await bytesOf(drawings), await photosFor(records, places, frame.at));
  return { bytes, pages: drawings.length, notes: told() };
}

/** A paper's bytes, for whoever wants them elsewhere than behind a ticket. */
export async function paperBytes(
  wanted: PaperFrame['wanted'],
  at: AtLot,
): Promise<Drawn & { readonly draft: PaperDraft }> {
  const frame = frameOf(at, wanted);
  const draft = writers[wanted.sort](frame);
  const drawn = await draw(draft, frame);
  return { ...drawn, draft, notes: [...(draft.notes ?? []), ...drawn.notes] };
}

/** One paper as a PDF for its own use: letters, lists and sheets for the site. */
export const writePaper = onLot(requests['write-paper'], async (wanted, at: AtLot): Promise<WrittenAnswer> => {
  const { bytes, pages, notes, draft } = await paperBytes(wanted, at);
  const path = at.lot.temporaryPath();
  try {
    await writeFile(path, bytes, { flag: 'wx' });
    const name = fileNameOf(frameOf(at, wanted), draft);
    return {
      ...(await offerMade({ path, name, key: `paper ${JSON.stringify(wanted)}` }, at)),
      title: draft.title,
      pages,
      notes,
    };
  } finally {
    await rm(path, { force: true });
  }
});
