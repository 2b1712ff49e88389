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

/** The paper a finding is about, else its errand, by its title. */
function titleOf({ practice }: PlanFrame['order'], { kind, errand }: Finding): string | undefined {
  return practice.papers[kind ?? '']?.title ?? practice.errands[errand ?? '']?.title;
}

/**
 * What no office can answer stands with its finding alone: going there first, noting a day, entering what the paper
 * says.
 */
function questionOf({ order }: PlanFrame, finding: Finding): readonly string[] {
  const { sort, kind, why, remedy } = finding;
  const title = titleOf(order, finding);
  if (title === undefined) return [];
  switch (sort) {
    case 'may not apply':
      // A paper's why tells at what it is asked for, and that is the question.
      return [`Is "${title}" asked for on a lot like mine?${kind === undefined ? ` ${why}` : ''}`];
    case 'missing':
      return [`Do you ask for "${title}" here?`];
    case 'lapsed':
    case 'too old':
    case 'not approved':
    case 'seal missing':
    case 'sheet size':
      return [`Will "${title}" do as it stands?`];
    case 'stale':
      // Where it only has to be noted what it was made from, there is nothing to go on for.
      return remedy.errand === undefined ? [] : [`Will "${title}" do as it stands?`];
    default:
      return [];
  }
}
