import { readHolds } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { known } from '../../named.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';
import { type Recorded, recordedOf } from './recorded.ts';

function largeBlock(one: Recorded): PaperBlock {
  const { title, settled, say, more } = one;
  return {
    block: 'large',
    text: title,
    state: settled ? say : say.toUpperCase().slice(0, 1) + say.slice(1),
    tone: settled ? 'green' : 'red',
    mark: settled ? 'in hand' : 'not asked for',
    more,
    writeIn: settled ? undefined : paperWording.hold.writeIn,
  };
}

/** One page before a pour, a cover, a dig: what has to be settled, and what is recorded of it. */
export function holdSheet({ asked, wanted }: PaperFrame): PaperDraft {
  const holds = readHolds(asked);
  if (wanted.hold === undefined) {
    const all = holds.map(({ hold, title }) => `${hold} (${title})`).join(', ');
    throw new LotfileError('wrong use', 'Which hold the sheet is for was not said.', { next: `There are: ${all}.` });
  }
  const rule = known(asked.practice.holds, wanted.hold, 'hold');
  const hold = holds.find(({ hold: id }) => id === rule.id);
  if (hold === undefined) {
    throw new LotfileError('wrong use', `"${rule.title}" doesn't apply to this lot.`, {
      about: rule.title,
      next: 'The answers on the record card decide it; look there if that is wrong.',
    });
  }
  const rows = rule.until.flatMap((id) => recordedOf(asked, id));
  const words = paperWording.hold;
  const shut = hold.waitsFor.length > 0 || hold.applies === 'unknown';
  const notices: readonly PaperBlock[] = [
    { block: 'notice', text: shut ? words.shut : words.opens, tone: shut ? 'red' : 'ink' },
    ...(hold.applies === 'unknown'
      ? [
          {
            block: 'text',
            text: 'Whether it applies hangs on a question of the record card that is not answered yet.',
          } as const,
        ]
      : []),
    ...(hold.happened === undefined
      ? []
      : [
          {
            block: 'text',
            text: `"${asked.practice.events[hold.event]?.title ?? hold.event}" is ${words.happened} ${dayInWords(hold.happened)}.`,
          } as const,
        ]),
  ];
  return {
    name: `hold ${rule.id}`,
    own: true,
    kicker: words.kicker,
    title: rule.title,
    recipient: '',
    blocks: [
      ...notices,
      { block: 'space' },
      ...rows.map(largeBlock),
      { block: 'space' },
      { block: 'text', text: rule.say },
      { block: 'space' },
      { block: 'text', text: words.caution },
    ],
    notes: shut
      ? [`${rule.title}: ${hold.waitsFor.length === 0 ? 'a question is open' : 'not all is recorded as settled'}.`]
      : [],
  };
}
