import { rmSync } from 'node:fs';
import type { NewRecord, RecordCorrection } from '../../../store/index.ts';
import type { Day } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../../context.ts';
import { type RequestInput, requests } from '../../contract/requests.ts';
import type { RecordFilesAnswer } from '../../contract/table-answers.ts';
import type { Offered } from '../../tickets.ts';
import { acted, lastAct } from '../record-card.ts';
import { centsSaid, refuseStrangeFile } from '../records.ts';
import { clearKept, refuseArriving } from '../table.ts';
import { smallEnding } from './lot-reader.ts';

/** Hundreds of photos and receipts at once: taken in as they are, dated by their camera, told by a small picture. */

type Said = RequestInput<'record-files'>;
type Noted = RecordFilesAnswer['noted'][number];

interface TakenFile {
  readonly offered: Offered;
  readonly sha256: string;
  readonly taken: Day | undefined;
}

/** A worker looks at it before anything of it is kept. */
async function takeFile(offered: Offered, at: AtLot): Promise<TakenFile> {
  refuseArriving(offered.path, at);
  refuseStrangeFile(offered);
  const output = at.lot.temporaryPath();
  try {
    const workers = await at.workers();
    const job = { job: 'glimpse', input: offered.path, name: offered.name, output } as const;
    const { taken } = await workers.glimpse(job, { signal: at.signal });
    const { sha256 } = await at.lot.takeInOriginal(offered.path, offered.name);
    at.lot.keepCached(output, { sha: sha256, ending: smallEnding });
    return { offered, sha256, taken };
  } finally {
    rmSync(output, { force: true });
  }
}

function titleOf({ offered }: TakenFile, { title, sort }: Said): string {
  return title ?? (offered.name.replace(/\.[^.]*$/, '') || (sort === 'photo' ? 'Photo' : 'Receipt'));
}

function recordOf(file: TakenFile, said: Said, at: AtLot): NewRecord {
  const { sort, place, wall, trade, amount, day } = said;
  return {
    sort,
    title: titleOf(file, said),
    day: day ?? file.taken ?? at.day,
    place,
    wall,
    trade,
    amount: centsSaid(amount),
    file: file.sha256,
  };
}

/** What was taken in becomes records in one act, so that one undo takes the whole heap back. */
function noteAll(files: readonly TakenFile[], said: Said, at: AtLot): readonly Noted[] {
  const what = said.sort === 'photo' ? 'photos' : 'receipts';
  const title =
    files.length === 1 ? `Noted the ${said.sort}: ${files[0]?.offered.name}` : `Noted ${files.length} ${what}`;
  return at.lot.act(title, () =>
    files.map((file): Noted => {
      const record = recordOf(file, said, at);
      const [before] = at.lot.recordsOfFile(file.sha256);
      const by = said.day !== undefined ? 'you' : file.taken !== undefined ? 'the camera' : 'today';
      const noted = { title: record.title, day: record.day, by } as const;
      if (before !== undefined) return { record: before, ...noted, already: true };
      return { record: at.lot.addRecord(record), ...noted, already: false };
    }),
  );
}

export const recordFiles = onLot(requests['record-files'], async (said, at): Promise<RecordFilesAnswer> => {
  centsSaid(said.amount);
  const taken: TakenFile[] = [];
  const refused: RecordFilesAnswer['refused'][number][] = [];
  const atOnce = 2;
  for (let n = 0; n < said.files.length; n += atOnce) {
    at.signal.throwIfAborted();
    at.progress({ what: 'taking in photos and receipts', done: n, of: said.files.length });
    const some = said.files.slice(n, n + atOnce).map((ticket) => at.tickets.look(ticket));
    const outcomes = await Promise.allSettled(some.map((offered) => takeFile(offered, at)));
    for (const [k, outcome] of outcomes.entries()) {
      if (outcome.status === 'fulfilled') taken.push(outcome.value);
      else refused.push({ file: some[k]?.name ?? '', error: LotfileError.from(outcome.reason).toJSON() });
    }
  }
  at.signal.throwIfAborted();
  if (taken.length === 0) return { noted: [], refused, notes: [] };
  const noted = noteAll(taken, said, at);
  const notes = await clearKept(
    taken.map(({ offered }) => offered.path),
    at,
  );
  return { act: noted.every(({ already }) => already) ? undefined : lastAct(at), noted, refused, notes };
});

function correctionOf({
  title,
  day,
  place,
  wall,
  trade,
  amount,
  text,
  clear,
}: RequestInput<'correct-records'>): RecordCorrection {
  const said = Object.entries({ title, day, place, wall, trade, amount: centsSaid(amount), text });
  return {
    ...Object.fromEntries(said.filter(([, value]) => value !== undefined)),
    ...Object.fromEntries(clear.map((field) => [field, null])),
  };
}

function many(records: readonly string[]): string {
  return records.length === 1 ? 'one record' : `${records.length} records`;
}

export const correctRecords = onLot(requests['correct-records'], (input, at) => {
  const correction = correctionOf(input);
  if (Object.keys(correction).length === 0) {
    throw new LotfileError('wrong use', 'Nothing was said to correct.', {
      next: 'Say a day, a place, a wall, a trade ...',
    });
  }
  return acted(at, `Corrected ${many(input.records)}`, () => {
    for (const id of input.records) at.lot.correctRecord(id, correction);
  });
});

export const removeRecords = onLot(requests['remove-records'], ({ records }, at) =>
  acted(at, `Took ${many(records)} off the list`, () => {
    for (const id of records) at.lot.removeRecord(id);
  }),
);
