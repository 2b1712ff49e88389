import type { ErrandAnswer } from '../../../core/desk/contract/answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import type { FindingSort, WayStop, Weight } from '../../../core/vocabulary/finding.ts';
import { answerDueInWords } from '../../../core/vocabulary/in-words.ts';
import { tooSoonInWords } from '../way/words.ts';

export interface Verdict {
  readonly tone: 'red' | 'ochre' | 'violet' | 'green' | 'pencil';
  readonly say: string;
  readonly more?: string | undefined;
}

export function things(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

const papersToCome = ['missing', 'not issued yet', 'too early'] as const;
const comesFirst = ['errand not settled', 'event missing'] as const;

/** Papers that are still to come and errands that come first: too early, and nothing anybody did wrong. */
function tooEarly(answer: ErrandAnswer): Verdict | undefined {
  const { findings, firstDay } = answer.reading;
  const count = (...sorts: readonly FindingSort[]): number =>
    findings.filter(({ sort, weight }) => sorts.includes(sort) && weight !== 'good to know').length;
  const papers = count(...papersToCome);
  const first = count(...comesFirst);
  const waits = new Set<FindingSort>([...papersToCome, ...comesFirst]);
  if (papers + first === 0 || findings.some(({ weight, sort }) => weight === 'refused' && !waits.has(sort)))
    return undefined;
  const parts = [
    ...(papers === 0 ? [] : [`${things(papers, 'paper')} still to come`]),
    ...(first === 0 ? [] : [`${things(first, 'thing')} to be done first`]),
  ];
  const { tone, say } = foretold(answer);
  const day = firstDay === undefined ? '' : ` By what is on file, ${dayWithWeekday(firstDay)} at the earliest.`;
  return { tone, say: `Too early: ${parts.join(', ')}.${day}`, more: say };
}

function foretold({ reading, office }: ErrandAnswer): Verdict {
  const count = (weight: Weight): number => reading.findings.filter((finding) => finding.weight === weight).length;
  const refused = count('refused');
  const questioned = count('questioned');
  const asked = count('ask first');
  const rest = [
    questioned === 0 ? [] : [`They may object to ${things(questioned, 'thing')}`],
    asked === 0 ? [] : [`${things(asked, 'thing')} to ask about first`],
  ].flat();
  const more = rest.length === 0 ? undefined : `${rest.join('; ')}.`;
  if (refused > 0) {
    const final = reading.findings.some(({ weight, final: lasting }) => weight === 'refused' && lasting);
    const lasting = final ? ' Some of it can’t be undone.' : '';
    return { tone: 'red', say: `You would be turned away: ${things(refused, 'reason')}.${lasting}`, more };
  }
  if (questioned > 0) {
    const say = `Nothing on file would turn you away, but they may object to ${things(questioned, 'thing')}.`;
    return { tone: 'ochre', say, more: asked === 0 ? undefined : `${things(asked, 'thing')} to ask about first.` };
  }
  if (asked > 0)
    return {
      tone: 'violet',
      say: `Ask before you go: ${things(asked, 'thing')} ${asked === 1 ? 'rests' : 'rest'} on an assumption.`,
    };
  const own = office.sort === 'owner';
  const say = own ? 'Nothing on file speaks against it.' : 'Nothing on file speaks against going; the office decides.';
  return { tone: 'green', say };
}

/** One line in words: what the office will say to this errand on the day. */
export function verdictOf(answer: ErrandAnswer, stop: WayStop | undefined): Verdict {
  switch (answer.reading.state) {
    case 'settled':
      return { tone: 'green', say: 'Settled. Whatever they gave you has to be kept: see what it brings home.' };
    case "doesn't apply":
      return { tone: 'pencil', say: 'This errand isn’t asked of your lot, as it is described now.' };
    case 'left with them': {
      const { withThem, day } = answer.reading;
      const more = withThem === undefined ? undefined : `Their answer: ${answerDueInWords(withThem, day)}.`;
      return { tone: 'violet', say: 'They have your papers; you wait.', more };
    }
    case 'sent back': {
      const open = answer.comments.length;
      const { say } = foretold(answer);
      if (open === 0) return { tone: 'red', say: 'They sent it back.', more: say };
      return { tone: 'red', say: `They sent it back with ${things(open, 'comment')} to answer.`, more: say };
    }
    case "can't go yet":
      return tooEarly(answer) ?? foretold(answer);
    case 'can go': {
      const soon = stop === undefined ? undefined : tooSoonInWords(stop);
      const { say, more, tone } = foretold(answer);
      if (soon === undefined) return { tone, say, more };
      return { tone: tone === 'green' ? 'ochre' : tone, say: soon, more: [say, more].filter(Boolean).join(' ') };
    }
  }
}
