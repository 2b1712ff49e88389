import type { PlanFile } from '../plan-model.ts';
import type { PlanFrame } from './frame.ts';
import { megabytes } from './print-blocks.ts';
import { unstampedNotes } from './stamps.ts';

/** Everything to tell beside the packet, whole sentences, each once. */
export function planNotes(frame: PlanFrame, files: readonly PlanFile[]): readonly string[] {
  const bare = files.flatMap((file) =>
    file.of === 'assembled' && (file.sort === 'packet' || file.sort === 'paper') && frame.delivery.stamps
      ? file.sheets.flatMap((sheet) =>
          sheet.of === 'paper' && 'none' in sheet.stamp ? [{ why: sheet.stamp.none, title: sheet.title }] : [],
        )
      : [],
  );
  const kept = frame.rows.flatMap((row) =>
    [row, ...row.riders].flatMap(({ title, pages }) =>
      pages.how === 'linked' ? pages.content.notes.map((note) => `${title}: ${note}`) : [],
    ),
  );
  return [
    ...new Set([
      ...frame.notes,
      ...largeNotes(frame, files),
      ...unstampedNotes(bare),
      ...kept,
      ...replacedNotes(frame),
    ]),
  ];
}

function largeNotes(frame: PlanFrame, files: readonly PlanFile[]): readonly string[] {
  const limit = frame.delivery.fileLimit;
  if (limit === undefined) return [];
  return files.flatMap((file) => {
    if (file.of === 'assembled' && file.sort !== 'paper') return [];
    const bytes = file.of === 'assembled' ? file.estimatedBytes : file.file.bytes;
    if (bytes <= limit) return [];
    return [`${file.name} has ${megabytes(bytes)}; they take ${megabytes(limit)} at most. Ask them how to send it.`];
  });
}

function replacedNotes({ replaced }: PlanFrame): readonly string[] {
  if (replaced.size === 0) return [];
  const characters = [...replaced].map(
    (character) => `${character} (U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')})`,
  );
  return [
    `The faces have no letter for ${characters.join(', ')}: the sheets show □ there. Write it in by hand or spell it otherwise.`,
  ];
}
