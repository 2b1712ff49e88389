import type { LotRecord } from '../../../store/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

function holds(said: string | undefined, value: string | undefined): boolean {
  return said === undefined || (value ?? '').toLowerCase().includes(said.toLowerCase());
}

function chosen({ at, wanted, asked }: PaperFrame): readonly LotRecord[] {
  return at.lot
    .records({ sort: 'photo' })
    .filter(({ day }) => day <= asked.day)
    .filter(
      ({ day }) => (wanted.from === undefined || day >= wanted.from) && (wanted.to === undefined || day <= wanted.to),
    )
    .filter(({ trade, place }) => holds(wanted.trade, trade) && holds(wanted.place, place));
}

/** Photos with place, wall, trade and day under each. */
export function photoPaper(frame: PaperFrame): PaperDraft {
  const { wanted } = frame;
  const found = chosen(frame);
  const records = found.filter(({ filePath }) => filePath !== undefined);
  if (records.length === 0) {
    throw new LotfileError('not found', 'No photo with a file fits what you asked for.', {
      next: 'Note photos with their file first (record photo), or ask for other days, another trade or place.',
    });
  }
  const about = [wanted.place, wanted.trade].filter((part) => part !== undefined).join(', ');
  const lacking = found.length - records.length;
  return {
    name: `photos ${about}`.trim(),
    own: false,
    kicker: paperWording.photos.kicker,
    title: about === '' ? 'Photos' : `Photos: ${about}`,
    recipient: wanted.recipient ?? '',
    blocks: [],
    photos: {
      records,
      captions: records.map(({ title, place, trade, day }) => ({
        title,
        under: [place, trade, dayInWords(day)].filter((part) => part !== undefined).join(' · '),
      })),
    },
    notes: lacking === 0 ? [] : [`${lacking} noted without a file ${lacking === 1 ? 'is' : 'are'} left out.`],
  };
}
