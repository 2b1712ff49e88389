import { basisInWords, type Finding, type PaperState, type Weight } from '../../desk/door.ts';
import { labelled, wrapped } from './lines.ts';

/** Shape and word together: a state must read without colour. */
const weightMarks: Readonly<Record<Weight, string>> = {
  refused: '█ REFUSED',
  questioned: '▯ QUESTIONED',
  'ask first': '┊ ASK FIRST',
  'good to know': '✓ GOOD TO KNOW',
};

export const paperMarks: Readonly<Record<PaperState, string>> = {
  'not asked for': '○ NOT ASKED FOR',
  awaited: '◐ AWAITED',
  'in hand': '● IN HAND',
  lapsing: '◪ LAPSING',
  lapsed: '☒ LAPSED',
  replaced: '△ REPLACED',
  unreadable: '◌ UNREADABLE',
  "doesn't apply": "— DOESN'T APPLY",
};

function sameCommand({ sort, a, b }: NonNullable<Finding['alike']>): string {
  return `same ${sort} ${JSON.stringify(a)} ${JSON.stringify(b)}`;
}

/** Where what was noted of a paper may be wrong, and not the paper: how it is corrected. */
function enteredWrong({ waysOut = [] }: Finding): readonly string[] {
  return waysOut.flatMap(({ title, edition }) =>
    edition === undefined
      ? []
      : labelled('Entered wrong:', `${title}: lotfile correct ${edition} --fact NAME=VALUE`, 4),
  );
}

/** One finding: what, why, on whose word, and the way out. */
export function findingLines(finding: Finding): readonly string[] {
  return [
    `${weightMarks[finding.weight]}${finding.final ? " (can't be undone)" : ''}`,
    ...wrapped(finding.say, 4),
    ...labelled('Why:', finding.why, 4),
    ...labelled('Who says so:', `${basisInWords(finding.basis)}.`, 4),
    ...labelled('What to do:', finding.remedy.say, 4),
    ...(finding.alike === undefined ? [] : labelled('If they are:', sameCommand(finding.alike), 4)),
    ...enteredWrong(finding),
    '',
  ];
}

/** What to carry besides papers stands together: a list, not a row of complaints. */
function bringLines(findings: readonly Finding[]): readonly string[] {
  if (findings.length === 0) return [];
  return ['✓ TO BRING', ...findings.flatMap(({ say }) => wrapped(say.replace(/^Bring: /, ''), 4)), ''];
}

export function findingsText(findings: readonly Finding[]): readonly string[] {
  const bring = findings.filter(({ sort }) => sort === 'bring');
  const rest = findings.filter(({ sort }) => sort !== 'bring');
  const heavy = rest.some(({ weight }) => weight !== 'good to know');
  const calm = heavy ? [] : ['Nothing in your papers speaks against it; their word on the day decides.', ''];
  return [...calm, ...rest.flatMap(findingLines), ...bringLines(bring)];
}
