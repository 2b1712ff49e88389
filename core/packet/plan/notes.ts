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
      ...namelessNotes(frame),
      ...largeNotes(frame, files),
      ...unstampedNotes(bare),
      ...kept,
      ...replacedNotes(frame),
    ]),
  ];
}

/** A clerk can't file a cover that names nobody. */
function namelessNotes({ order, delivery, errand, rows }: PlanFrame): readonly string[] {
  const coverless = errand !== undefined && rows.length === 0;
  if (!delivery.cover || coverless) return [];
  const sorts = ['owner', 'place', 'parcel'] as const;
  const absent = sorts.filter((sort) => !order.lot.identities.some((identity) => identity.sort === sort));
  if (absent.length === 0) return [];
  const words = absent.length < 2 ? absent.join('') : `${absent.slice(0, -1).join(', ')} and ${absent.at(-1)}`;
  return [
    `No ${words} is noted, so the cover leaves it blank: note it on the lot’s card among the names, exactly as printed.`,
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
