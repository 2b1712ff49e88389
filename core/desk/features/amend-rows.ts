import { leadInWords, spanInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Errand, Office, PaperKind, Practice } from '../../vocabulary/practice.ts';
import { visitOutcomes } from '../../vocabulary/practice.ts';
import type { AmendableRow } from '../contract/practice-answers.ts';
import { kindTitle } from '../named.ts';
import { type Field, moneyWritten, onTheirWord, rowsOf, sizeWritten } from './amend-kit.ts';
import { needRows } from './amend-need.ts';

const ways = ['counter', 'upload', 'e-mail', 'site binder', 'lender'] as const;
const fileWays = ['one file', 'separate files'] as const;

function deliveryRows({ id, deliver }: Errand): readonly AmendableRow[] {
  const limit = sizeWritten(deliver.fileLimit);
  return rowsOf({ path: `errands.${id}.deliver`, group: 'How it is handed over', basis: deliver.basis }, [
    { key: 'by', label: 'Way', sort: 'choice', value: deliver.way, choices: ways },
    { key: 'sets', label: 'Sets to hand in', sort: 'count', value: deliver.sets },
    { key: 'files', label: 'Files', sort: 'choice', value: deliver.files, choices: fileWays },
    { key: 'file_limit', label: 'Largest file they take', sort: 'size', value: limit },
    {
      key: 'file_name_limit',
      label: 'Longest file name they take, in letters',
      sort: 'count',
      value: deliver.fileNameLimit,
    },
  ]);
}

/** Whether the errand is one here at all. */
export function heldHere({ id, title, inspection, basis, said }: Errand, here: boolean): AmendableRow {
  const what = inspection ? 'hold this inspection by itself here' : 'ask for this here';
  const say = here ? `They ${what}.` : `They don’t ${what}, as far as the rules on file say.`;
  const field: Field = { key: 'exists', label: `They ${what}`, sort: 'yes or no', value: here, say };
  const [row] = rowsOf({ path: `errands.${id}`, group: title, basis }, onTheirWord([field], said));
  if (row === undefined) throw new LotfileError('internal', `The errand "${id}" has no row.`);
  return row;
}

/** What goes for the day somebody comes out to the site. */
function comingFields({ inspection, onSite = [], book, againFee, outcomes = [] }: Errand): readonly Field[] {
  if (!inspection && onSite.length === 0 && book === undefined) return [];
  const ahead = book === undefined ? undefined : spanInWords(book.ahead);
  return [
    { key: 'on_site', label: 'Ready on the site', sort: 'list', value: onSite },
    { key: 'book.ahead', label: 'Book ahead by', sort: 'days', value: ahead },
    ...(book === undefined
      ? []
      : [{ key: 'book.until', label: 'Bookings taken until', sort: 'words', value: book.until } as const]),
    {
      key: 'again_fee',
      label: 'Coming a second time',
      sort: 'money',
      value: moneyWritten(againFee),
      say:
        againFee === undefined
          ? 'What coming a second time costs is not known.'
          : `Coming a second time costs ${againFee === 0 ? 'nothing' : moneyInWords(againFee)}.`,
    },
    { key: 'outcomes', label: 'What they may leave it with', sort: 'list', value: outcomes, choices: visitOutcomes },
  ];
}

/** Everything of an errand: itself, its papers in the order of the packet, how it is handed over. */
export function errandRows(errand: Errand, practice: Practice): readonly AmendableRow[] {
  const { id, title, basis, fee, feeNote, takes, bring, ask, appear, appointment } = errand;
  const fields: readonly Field[] = [
    {
      key: 'fee',
      label: 'Fee',
      sort: 'money',
      value: moneyWritten(fee),
      say: fee === undefined ? 'No fee is known.' : fee === 0 ? 'It is free.' : `The fee is ${moneyInWords(fee)}.`,
    },
    { key: 'fee_note', label: 'About the fee', sort: 'words', value: feeNote },
    {
      key: 'takes',
      label: 'How long they take',
      sort: 'days',
      value: takes === undefined ? undefined : leadInWords(takes),
    },
    { key: 'bring', label: 'Bring along', sort: 'list', value: bring },
    { key: 'ask', label: 'Ask them', sort: 'list', value: ask },
    { key: 'appear', label: 'Who must come in person', sort: 'words', value: appear },
    { key: 'appointment', label: 'Appointment', sort: 'words', value: appointment },
    ...comingFields(errand),
  ];
  const own = rowsOf({ path: `errands.${id}`, group: title, basis }, onTheirWord(fields, errand.said));
  const needs = errand.needs.flatMap((need) =>
    needRows(errand, need, need.kinds.map((kind) => kindTitle(practice, kind)).join(' or ')),
  );
  return [...own, ...needs, ...deliveryRows(errand)];
}

export function officeRows({ id, title, basis, ...office }: Office): readonly AmendableRow[] {
  return rowsOf({ path: `offices.${id}`, group: title, basis }, [
    { key: 'hours', label: 'Hours', sort: 'words', value: office.hours },
    { key: 'intake_until', label: 'Papers in until', sort: 'words', value: office.intakeUntil },
    { key: 'phone', label: 'Phone', sort: 'words', value: office.phone },
    { key: 'street', label: 'Street', sort: 'words', value: office.street },
    { key: 'appointment', label: 'Appointment', sort: 'words', value: office.appointment },
    { key: 'appear', label: 'Who must come in person', sort: 'words', value: office.appear },
    { key: 'payee', label: 'Checks made out to', sort: 'words', value: office.payee },
    { key: 'pays', label: 'How they take money', sort: 'words', value: office.pays },
    { key: 'exists', label: 'There is such an office here', sort: 'yes or no', value: office.exists },
  ]);
}

/** The one plain "good for so long from issue" of a paper; clocks with conditions are for the practice file. */
function lifeOf({ clocks }: PaperKind): string | undefined | 'other' {
  const [only, ...more] = clocks.filter(({ sort }) => sort === 'lasts');
  if (only === undefined) return clocks.length === 0 ? undefined : 'other';
  return only.sort === 'lasts' && more.length === 0 && only.when === undefined ? spanInWords(only.span) : 'other';
}

/** A paper's own rules, then what each errand asks of it. */
export function paperRows(kind: PaperKind, practice: Practice): readonly AmendableRow[] {
  const { id, title, basis, extension, conditions } = kind;
  const life = lifeOf(kind);
  const goodField: Field = { key: 'good.lasts', label: 'Good from the day of issue for', sort: 'days', value: life };
  const longer: readonly Field[] =
    extension === undefined
      ? []
      : [
          { key: 'extend.adds', label: 'An extension adds', sort: 'days', value: spanInWords(extension.adds) },
          { key: 'extend.times', label: 'How often it may be extended', sort: 'count', value: extension.times },
        ];
  const own = rowsOf({ path: `papers.${id}`, group: title, basis }, [
    ...(life === 'other' ? [] : [goodField]),
    ...longer,
    { key: 'conditions', label: 'What they tie it to', sort: 'list', value: conditions ?? [] },
  ]);
  const asked = Object.values(practice.errands).flatMap((errand) =>
    errand.needs.filter(({ kinds }) => kinds.includes(id)).flatMap((need) => needRows(errand, need, errand.title)),
  );
  return [...own, ...asked];
}
