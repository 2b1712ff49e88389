import { extensionOf } from '../../../packet/plan/names.ts';
import type { RecordLink, RecordTable } from '../../../record/record-model.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { outcomeInWords } from '../../../vocabulary/in-words.ts';
import { moneyInWords } from '../../../vocabulary/money.ts';
import type { AtLot } from '../../context.ts';
import { errandTitle, officeTitle, subjectTitle, titleFor } from '../asked.ts';
import type { RecordFolder } from './record-folder.ts';

/** Photos, receipts, serial numbers and notes, each with its file where it has one. */
async function recordsTable(at: AtLot, folder: RecordFolder): Promise<RecordTable> {
  const rows: (string | RecordLink)[][] = [];
  const records = at.lot.records().filter(({ day }) => day <= at.day);
  for (const [n, record] of records.entries()) {
    at.signal.throwIfAborted();
    at.progress({ what: 'writing photos and receipts', done: n, of: records.length });
    const { sort, day, title, place, trade, amount, file, filePath, fileName } = record;
    let link: RecordLink | string = '';
    if (file !== undefined && filePath !== undefined) {
      const under = sort === 'photo' ? 'photos' : 'receipts-and-notes';
      const path = folder.pathFor(under, `${day}_${title}`, extensionOf(fileName ?? ''));
      await folder.copy(filePath, path, { sha256: file, name: fileName ?? title });
      link = { label: 'open', path };
    }
    const where = [place, trade].filter((part) => part !== undefined).join(', ');
    rows.push([title, sort, dayInWords(day), where, amount === undefined ? '' : moneyInWords(amount), link]);
  }
  return {
    title: 'Photos, receipts, serial numbers and notes',
    head: ['what', 'sort', 'day', 'where', 'amount', 'file'],
    rows,
  };
}

/** What happened and what offices said, by day. */
function storyTable(at: AtLot): RecordTable {
  const view = at.lot.view();
  const practice = at.lot.practice();
  const events = view.events
    .filter(({ day }) => day <= at.day)
    .map(({ event, day, note }) => ({ day, cells: [practice.events[event]?.title ?? event, '', note ?? ''] }));
  const visits = view.visits
    .filter(({ day, state }) => day <= at.day && state !== 'planned')
    .map(({ errand, subject, day, state, outcome, note }) => {
      const title = titleFor(errandTitle(practice, errand), subjectTitle(view, subject));
      const office = officeTitle(practice, practice.errands[errand]?.office ?? '');
      const said = outcome === undefined ? state : outcomeInWords(outcome);
      return { day, cells: [title, office, [said, note].filter((part) => part !== undefined).join('; ')] };
    });
  const rows = [...events, ...visits]
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
    .map(({ day, cells }) => [...cells.slice(0, 1), dayInWords(day), ...cells.slice(1)]);
  return { title: 'What happened', head: ['what', 'day', 'with', 'result'], rows };
}

function firmsTable(at: AtLot): RecordTable {
  const rows = at.lot
    .view()
    .subjects.filter(({ sort }) => sort === 'engagement')
    .map(({ firm, title, trade, from, to }) => [
      firm ?? title,
      trade ?? '',
      from === undefined ? '' : dayInWords(from),
      to === undefined ? '' : dayInWords(to),
    ]);
  return { title: 'Firms', head: ['firm', 'trade', 'from', 'to'], rows };
}

export async function recordTables(at: AtLot, folder: RecordFolder): Promise<readonly RecordTable[]> {
  return [storyTable(at), firmsTable(at), await recordsTable(at, folder)];
}
