import { leadInWords, spanInWords } from '../../vocabulary/days.ts';
import { basisInWords } from '../../vocabulary/in-words.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Basis, Errand, Need, Office, PaperKind, Practice } from '../../vocabulary/practice.ts';
import type { AmendableRow, RuleSort } from '../contract/screen-answers.ts';
import { kindTitle } from '../named.ts';

/** The rules "the clerk said otherwise" may change, each with its path in the practice and its value as written there. */

interface Group {
  /** Path of the rule the fields stand under: `errands.permit-apply.needs.plans`. */
  readonly path: string;
  readonly group: string;
  readonly basis: Basis;
}

interface Field {
  readonly key: string;
  readonly label: string;
  readonly sort: RuleSort;
  readonly value: AmendableRow['value'];
  readonly choices?: readonly string[];
  /** The sentence; by default made of label and value. */
  readonly say?: string;
}

function plainly({ label, value, sort }: Field): string {
  if (value === undefined || (Array.isArray(value) && value.length === 0)) return `${label}: nothing laid down.`;
  if (sort === 'yes or no') return `${label}: ${value === true ? 'yes' : 'no'}.`;
  return `${label}: ${Array.isArray(value) ? value.join(', ') : String(value)}.`;
}

function rowsOf({ path, group, basis }: Group, fields: readonly Field[]): readonly AmendableRow[] {
  return fields.map((field) => ({
    rule: `${path}.${field.key}`,
    group,
    label: field.label,
    say: field.say ?? plainly(field),
    sort: field.sort,
    value: field.value,
    choices: field.choices,
    basis: basisInWords(basis),
  }));
}

/** "240 usd", "free": the way a practice file writes an amount. */
function moneyWritten(cents: number | undefined): string | undefined {
  if (cents === undefined) return undefined;
  return cents === 0 ? 'free' : `${moneyInWords(cents).slice(1).replaceAll(',', '')} usd`;
}

/** "25 MB": the way a practice file writes a size; a megabyte has 1,000,000 bytes there. */
function sizeWritten(bytes: number | undefined): string | undefined {
  if (bytes === undefined) return undefined;
  return bytes % 1_000_000 === 0 ? `${bytes / 1_000_000} MB` : `${bytes / 1000} KB`;
}

const uses = ['leave', 'show', 'bring home'] as const;
const forms = ['paper', 'electronic', 'either'] as const;
const ways = ['counter', 'upload', 'e-mail', 'site binder', 'lender'] as const;
const fileWays = ['one file', 'separate files'] as const;

const useWords = { leave: 'left with them', show: 'shown and taken back', 'bring home': 'brought home' } as const;
const formWords = { paper: 'on paper', electronic: 'as a file', either: 'on paper or as a file' } as const;

/** What has to be on a paper and how long it has to be good. */
function askedOfPaper(need: Need): readonly Field[] {
  const good = need.goodFor === undefined ? undefined : spanInWords(need.goodFor);
  const fresh = need.fresh === undefined ? undefined : spanInWords(need.fresh);
  const copies = need.copies === 1 ? 'one copy' : `${need.copies} copies`;
  const { marks, form } = need;
  return [
    { key: 'copies', label: 'Copies', sort: 'count', value: need.copies, say: `They want ${copies}.` },
    {
      key: 'marks',
      label: 'What must stand on it',
      sort: 'list',
      value: marks,
      say: marks.length === 0 ? 'Nothing special must stand on it.' : `It must be ${marks.join(', ')}.`,
    },
    {
      key: 'form',
      label: 'Form',
      sort: 'choice',
      value: form,
      choices: forms,
      say: `They take it ${formWords[form]}.`,
    },
    {
      key: 'good_for',
      label: 'Still good after the visit for',
      sort: 'days',
      value: good,
      say: good === undefined ? 'It has to be good on the day.' : `It has to stay good for ${good} after the visit.`,
    },
    {
      key: 'fresh',
      label: 'Issued no longer ago than',
      sort: 'days',
      value: fresh,
      say: fresh === undefined ? 'How old it is doesn’t matter.' : `It must be issued within the last ${fresh}.`,
    },
  ];
}

/** Whether it is asked for at all, and what becomes of it. */
function fateOfPaper({ optional, use }: Need): readonly Field[] {
  const say = optional ? 'They may do without it.' : 'They want it.';
  return [
    { key: 'optional', label: 'May be left out', sort: 'yes or no', value: optional, say },
    {
      key: 'use',
      label: 'What becomes of it',
      sort: 'choice',
      value: use,
      choices: uses,
      say: `It is ${useWords[use]}.`,
    },
  ];
}

/** What one errand asks of one paper. `group` names the paper, or the errand where the paper is at hand. */
export function needRows(errand: Errand, need: Need, group: string): readonly AmendableRow[] {
  // What the errand itself brings home can't be asked for before it.
  const ownYield = need.kinds.some((kind) => errand.yields.includes(kind));
  return rowsOf({ path: `errands.${errand.id}.needs.${need.id}`, group, basis: need.basis }, [
    ...askedOfPaper(need),
    ...(ownYield ? [] : fateOfPaper(need)),
  ]);
}

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

/** Everything of an errand: itself, its papers in the order of the packet, how it is handed over. */
export function errandRows(errand: Errand, practice: Practice): readonly AmendableRow[] {
  const { id, title, basis, fee, feeNote, takes, bring, ask, appear, appointment } = errand;
  const own = rowsOf({ path: `errands.${id}`, group: title, basis }, [
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
  ]);
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
