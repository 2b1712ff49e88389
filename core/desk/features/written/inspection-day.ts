import { readErrand, readHolds } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { outcomesOf } from '../../../vocabulary/coming-out.ts';
import { dayWithWeekday, spanInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Finding } from '../../../vocabulary/finding.ts';
import { moneyInWords } from '../../../vocabulary/money.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import { editionIn, errandNamed, kindTitle, subjectNamed } from '../../named.ts';
import { officeCard, subjectTitle, titleFor } from '../asked.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';
import { bookedVisit } from './recorded.ts';

/** The errand meant, with the firm or area it is for. */
export function errandMeant({ asked, wanted }: PaperFrame): { readonly errand: Errand; readonly subject?: string } {
  if (wanted.errand === undefined) {
    throw new LotfileError('wrong use', 'Which errand it is for was not said.', { next: 'Name it; see them: way.' });
  }
  const errand = errandNamed(asked.practice, wanted.errand);
  return wanted.subject === undefined ? { errand } : { errand, subject: subjectNamed(asked.lot, wanted.subject).id };
}

function field(label: string, value: string | undefined): readonly PaperBlock[] {
  return value === undefined || value === '' ? [] : [{ block: 'field', label, value }];
}

function whereBlocks(frame: PaperFrame, errand: Errand, subject: string | undefined): readonly PaperBlock[] {
  const { asked } = frame;
  const office = officeCard(asked.practice, errand.office, errand);
  const booked = bookedVisit(asked, errand.id, subject);
  const { book } = errand;
  const until = book?.until === undefined ? '' : `, by ${book.until}`;
  const ahead = book === undefined ? undefined : `${spanInWords(book.ahead)} ahead${until}`;
  return [
    ...field('inspector from', office.title),
    ...field('booked for', booked === undefined ? 'no day is noted yet' : dayWithWeekday(booked.day)),
    ...field('book', ahead),
    ...field('phone', office.phone),
    ...field('hours', office.hours),
    ...field('coming again', errand.againFee === undefined ? undefined : `costs ${moneyInWords(errand.againFee)}`),
  ];
}

function items(heading: string, texts: readonly (string | { text: string; more: string })[]): readonly PaperBlock[] {
  if (texts.length === 0) return [];
  const rows = texts.map(
    (one): PaperBlock => (typeof one === 'string' ? { block: 'item', text: one } : { block: 'item', ...one }),
  );
  return [{ block: 'heading', text: heading }, ...rows];
}

function turnedAway(findings: readonly Finding[]): readonly PaperBlock[] {
  const heavy = findings.filter(({ weight }) => weight === 'refused' || weight === 'questioned');
  if (heavy.length === 0) return [];
  return [
    { block: 'heading', text: paperWording.day.turned },
    ...heavy.map(
      (finding): PaperBlock => ({
        block: 'finding',
        bar: finding.weight,
        says: [{ say: finding.say, remedy: finding.remedy.say }],
        lines: [],
      }),
    ),
  ];
}

function paperTable(rows: readonly (readonly string[])[]): readonly PaperBlock[] {
  if (rows.length === 0) return [];
  const columns = [
    { head: 'paper', share: 8, face: 'bold' },
    { head: 'number', share: 5, face: 'mono' },
    { head: 'state', share: 5 },
  ] as const;
  return [{ block: 'heading', text: paperWording.day.needs }, { block: 'space' }, { block: 'table', columns, rows }];
}

/** The sheet for the day the inspector comes: what lies ready, what stays open, boxes for what they say. */
export function inspectionDay(frame: PaperFrame): PaperDraft {
  const { asked } = frame;
  const { errand, subject } = errandMeant(frame);
  const words = paperWording.day;
  const reading = readErrand(errand.id, { ...asked, subject });
  const holds = readHolds(asked).filter(
    ({ hold, happened }) => happened === undefined && asked.practice.holds[hold]?.until.includes(errand.id) === true,
  );
  const papers = reading.needs.map((need) => [
    titleFor(kindTitle(asked.practice, need.kind), subjectTitle(asked.lot, need.subject)),
    need.edition === undefined ? '' : (editionIn(asked.lot, need.edition)?.number ?? ''),
    need.applies === 'unknown' ? `${need.state}; ask whether they want it` : need.state,
  ]);
  const open = holds.map(({ title, say }) => ({ text: title, more: say }));
  return {
    name: `day ${errand.id}`,
    own: true,
    kicker: words.kicker,
    title: titleFor(errand.title, subjectTitle(asked.lot, subject)),
    recipient: '',
    blocks: [
      ...whereBlocks(frame, errand, subject),
      ...items(words.kit, [...(errand.onSite ?? []), ...errand.bring]),
      { block: 'heading', text: words.open },
      ...(open.length === 0
        ? [{ block: 'text', text: words.nothing } as const]
        : open.map((one): PaperBlock => ({ block: 'item', ...one }))),
      ...paperTable(papers),
      ...turnedAway(reading.findings),
      ...items('Ask them', errand.ask),
      ...(errand.caution === undefined
        ? []
        : [{ block: 'space' } as const, { block: 'text', text: errand.caution } as const]),
      { block: 'heading', text: words.outcome },
      { block: 'ticks', items: outcomesOf(errand).map((word) => ({ word, more: paperWording.outcomes[word] })) },
      { block: 'lines', label: words.who, count: 1 },
      { block: 'lines', label: words.corrections, count: 5 },
      { block: 'space' },
      { block: 'text', text: words.after, quiet: true },
    ],
  };
}
