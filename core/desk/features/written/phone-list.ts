import { readErrand, readWay } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import { officeCard, subjectTitle, titleFor } from '../asked.ts';
import { errandMeant } from './inspection-day.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

interface Call {
  readonly errand: Errand;
  readonly subject: string | undefined;
}

/** The errand named; else everything one could go on within the next weeks. */
function callsOf(frame: PaperFrame): readonly Call[] {
  const { asked, wanted } = frame;
  if (wanted.errand !== undefined) {
    const { errand, subject } = errandMeant(frame);
    return [{ errand, subject }];
  }
  return readWay(asked)
    .stops.filter(({ state }) => state === 'can go' || state === 'sent back' || state === 'left with them')
    .flatMap(({ errand: id, subject }) => {
      const errand = asked.practice.errands[id];
      const own = errand !== undefined && asked.practice.offices[errand.office]?.sort === 'owner';
      return errand === undefined || own ? [] : [{ errand, subject }];
    });
}

/** What to ask before driving: the practice's own questions, then what rests on something unknown. */
function questionsOf({ errand, subject }: Call, { asked }: PaperFrame): readonly string[] {
  const { findings } = readErrand(errand.id, { ...asked, subject });
  const unsure = findings.filter(({ weight }) => weight === 'ask first').map(({ say }) => `${say} Is it so?`);
  return [...new Set([...errand.ask, ...unsure])];
}

function officeBlocks(office: string, calls: readonly Call[], frame: PaperFrame): readonly PaperBlock[] {
  const { asked } = frame;
  const card = officeCard(asked.practice, office);
  const reach = [card.phone ?? 'no phone number is noted', card.hours].filter((part) => part !== undefined);
  const rows = calls.flatMap((call) => {
    const title = titleFor(call.errand.title, subjectTitle(asked.lot, call.subject));
    const questions = questionsOf(call, frame);
    return (questions.length === 0 ? [paperWording.phone.always] : questions).map((question, n) => [
      n === 0 ? title : '',
      question,
      '',
    ]);
  });
  return [
    { block: 'heading', text: card.title },
    { block: 'text', text: reach.join(' · '), quiet: true },
    { block: 'space' },
    {
      block: 'table',
      rowHeight: 36,
      columns: [
        { head: 'errand', share: 4, face: 'bold' },
        { head: 'ask', share: 6 },
        { head: paperWording.phone.answer, share: 6 },
      ],
      rows,
    },
  ];
}

/** One list per office of what to confirm before anybody drives there. */
export function phoneList(frame: PaperFrame): PaperDraft {
  const calls = callsOf(frame);
  const one = frame.wanted.errand === undefined ? undefined : calls[0];
  const offices = Map.groupBy(calls, ({ errand }) => errand.office);
  const blocks = [...offices].flatMap(([office, all]) => officeBlocks(office, all, frame));
  return {
    name: one === undefined ? 'phone list' : `phone ${one.errand.id}`,
    own: true,
    kicker: paperWording.phone.kicker,
    title: one === undefined ? 'Phone list' : `Phone list: ${one.errand.title}`,
    recipient: '',
    blocks: blocks.length === 0 ? [{ block: 'text', text: paperWording.phone.none }] : blocks,
  };
}
