import type { Block } from '../../typeset/flow.ts';
import { wording } from '../../typeset/wording.ts';
import type { Finding } from '../../vocabulary/finding.ts';
import type { PlanFrame } from './frame.ts';

/** What to ask the office: the practice's own questions, then what rests on an assumption, put as a question. */
export function askBlocks(frame: PlanFrame): readonly Block[] {
  const open = frame.findings.filter(({ weight }) => weight === 'ask first');
  const questions = [...(frame.errand?.ask ?? []), ...open.flatMap((finding) => questionOf(frame, finding))];
  const items = [...new Set(questions)].map((text): Block => ({ block: 'item', text }));
  return items.length === 0 ? [] : [{ block: 'heading', text: wording.errand.ask }, ...items];
}

/** What no office can answer (go there first, note the day) stands with its finding alone. */
function questionOf({ order }: PlanFrame, { sort, kind, why, remedy }: Finding): readonly string[] {
  const paper = order.practice.papers[kind ?? '']?.title;
  switch (sort) {
    case 'may not apply':
      return [`Is this asked for on a lot like mine? ${why}`];
    case 'missing':
      return paper === undefined ? [remedy.say] : [`Do you ask for "${paper}" here?`];
    case 'lapsed':
    case 'too old':
    case 'not approved':
    case 'stale':
      return paper === undefined ? [remedy.say] : [`Will "${paper}" do as it stands?`];
    case 'event missing':
    case 'errand not settled':
    case 'not answered':
    case 'too early':
    case 'bring':
    case 'caution':
      return [];
    default:
      return [remedy.say];
  }
}
