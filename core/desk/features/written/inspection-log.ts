import { type Asked, readErrands } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { outcomeInWords } from '../../../vocabulary/in-words.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import { officeTitle, subjectTitle, titleFor } from '../asked.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';
import { bookedVisit, resultLines, visitsOf } from './recorded.ts';

interface Entry {
  readonly day: string;
  readonly cells: readonly string[];
}

function entriesOf(errand: Errand, { asked, at }: PaperFrame): readonly Entry[] {
  return visitsOf(asked, errand.id).map((visit) => {
    const comments = at.lot.comments(visit.id).map(({ number, text, answered }) => {
      return `${number}. ${text}${answered === undefined ? '' : ` (answered ${dayInWords(answered)})`}`;
    });
    const said = [visit.note ?? '', ...comments].filter((part) => part !== '').join('\n');
    return {
      day: visit.day,
      cells: [
        dayInWords(visit.day),
        titleFor(errand.title, subjectTitle(asked.lot, visit.subject)),
        officeTitle(asked.practice, errand.office),
        visit.outcome === undefined ? visit.state : outcomeInWords(visit.outcome),
        said,
      ],
    };
  });
}

/** Inspections still to come, with the day booked; a result in hand that settled it by itself is no more to come. */
function nextRows(inspections: readonly Errand[], asked: Asked): readonly (readonly string[])[] {
  return inspections.flatMap((errand) =>
    readErrands(errand.id, asked)
      .filter(({ state }) => state !== 'settled' && state !== "doesn't apply")
      .map(({ subject }) => {
        const booked = bookedVisit(asked, errand.id, subject);
        return [
          titleFor(errand.title, subjectTitle(asked.lot, subject)),
          officeTitle(asked.practice, errand.office),
          booked === undefined ? '' : dayInWords(booked.day),
        ];
      }),
  );
}

/** Settled by a kept result alone: nobody noted a visit. */
function resultRows(inspections: readonly Errand[], asked: Asked): readonly Entry[] {
  return inspections.flatMap((errand) => {
    if (visitsOf(asked, errand.id).length > 0) return [];
    return resultLines(asked, errand).map((line) => ({
      day: '9999',
      cells: ['', errand.title, officeTitle(asked.practice, errand.office), 'result kept', line],
    }));
  });
}

/** Every inspection by day, what they said, and what is still to come. */
export function inspectionLog(frame: PaperFrame): PaperDraft {
  const { asked, wanted } = frame;
  const words = paperWording.log;
  const inspections = Object.values(asked.practice.errands).filter(({ inspection }) => inspection);
  const entries = [
    ...inspections.flatMap((errand) => entriesOf(errand, frame)),
    ...resultRows(inspections, asked),
  ].toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const next = nextRows(inspections, asked);
  const made: readonly PaperBlock[] =
    entries.length === 0
      ? [{ block: 'text', text: words.none }]
      : [
          {
            block: 'table',
            columns: [
              { head: 'day', share: 3 },
              { head: 'inspection', share: 6, face: 'bold' },
              { head: 'by', share: 5 },
              { head: 'result', share: 4 },
              { head: 'what they said', share: 8 },
            ],
            rows: entries.map(({ cells }) => cells),
          },
        ];
  const toCome: readonly PaperBlock[] =
    next.length === 0
      ? []
      : [
          { block: 'heading', text: words.next },
          { block: 'space' },
          {
            block: 'table',
            columns: [
              { head: 'inspection', share: 8, face: 'bold' },
              { head: 'by', share: 6 },
              { head: 'booked for', share: 4 },
            ],
            rows: next,
          },
        ];
  return {
    name: 'inspection log',
    own: false,
    kicker: words.kicker,
    title: 'Inspection log',
    recipient: wanted.recipient ?? '',
    blocks: [...made, ...toCome],
  };
}
