import { dayWithWeekday } from './days.ts';
import type { CameBack, ErrandReading, Finding, FindingSort, Remedy, Weight } from './finding.ts';
import { answerDueInWords } from './in-words.ts';
import type { ErrandId } from './practice.ts';

/** What an office will say to an errand, in a line: in the window, in the terminal and on the owner's own sheet. */
export interface Verdict {
  readonly tone: 'red' | 'ochre' | 'violet' | 'green' | 'pencil';
  readonly say: string;
  /** The heaviest of what was counted, in its own words. */
  readonly first?: string | undefined;
  readonly more?: string | undefined;
}

/** "1 reason", "3 things". */
export function things(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Something that comes before an errand: another errand, or a thing of one's own. */
export interface ComesFirst {
  readonly errand?: ErrandId | undefined;
  readonly say: string;
  readonly remedy: Remedy;
  /** It may not be asked for: that hangs on a question not answered yet. */
  readonly maybe: boolean;
}

/** Too early: nothing anybody did wrong, only something still to come. */
const stillToCome: ReadonlySet<FindingSort> = new Set<FindingSort>([
  'missing',
  'not issued yet',
  'too early',
  'errand not settled',
  'event missing',
]);

/** Cured by going on an errand, where there is one. */
const gotThere: ReadonlySet<FindingSort> = new Set<FindingSort>([
  'may not apply',
  'lapsed',
  'lapsing',
  'too old',
  'stale',
  'replaced',
  'refused by office',
  'not approved',
]);

function holdsUp({ sort, weight, remedy }: Finding, self: ErrandId): boolean {
  if (weight === 'good to know' || remedy.errand === self) return false;
  if (remedy.errand === undefined) return stillToCome.has(sort) && weight !== 'ask first';
  return stillToCome.has(sort) || gotThere.has(sort);
}

/** What comes before an errand, heaviest first, each errand once: counted in the verdict, listed under "First". */
export function comesFirst({ errand: self, findings }: ErrandReading): readonly ComesFirst[] {
  const once = new Map<string, ComesFirst>();
  for (const finding of findings.filter((each) => holdsUp(each, self))) {
    const { say, remedy, weight } = finding;
    const key = remedy.errand ?? say;
    if (!once.has(key)) once.set(key, { errand: remedy.errand, say, remedy, maybe: weight === 'ask first' });
  }
  return [...once.values()];
}

function firstDayInWords({ firstDay }: ErrandReading): string {
  return firstDay === undefined ? '' : ` By what is on file, ${dayWithWeekday(firstDay)} at the earliest.`;
}

/** Nothing speaks against it but what is still to come. */
function tooEarly(reading: ErrandReading, own: boolean): Verdict | undefined {
  const rows = comesFirst(reading);
  const maybe = rows.filter((row) => row.maybe).length;
  const sure = rows.length - maybe;
  const wrong = reading.findings.some(({ weight, sort }) => weight === 'refused' && !stillToCome.has(sort));
  if (sure === 0 || wrong) return undefined;
  const more = maybe === 0 ? '' : `, and ${maybe} more if ${maybe === 1 ? 'it applies' : 'they apply'}`;
  const { tone, say, first } = foretold(reading, own);
  const count = `${things(sure, 'thing')} ${sure === 1 ? 'comes' : 'come'} first${more}.`;
  return { tone, say: `Too early: ${count}${firstDayInWords(reading)}`, more: together(say, first) };
}

function together(...parts: readonly (string | undefined)[]): string | undefined {
  const all = parts.filter((part) => part !== undefined && part !== '');
  return all.length === 0 ? undefined : all.join(' ');
}

function firstOf(findings: readonly Finding[], weight: Weight): string | undefined {
  const [first, second] = findings.filter((finding) => finding.weight === weight);
  return first === undefined || second === undefined ? first?.say : `The first: ${first.say}`;
}

/** What they will say, by its weight: never that nothing speaks against it while something asked for is missing. */
function foretold({ findings, state }: Pick<ErrandReading, 'findings' | 'state'>, own: boolean): Verdict {
  const count = (weight: Weight): number => findings.filter((finding) => finding.weight === weight).length;
  const [refused, questioned, asked] = [count('refused'), count('questioned'), count('ask first')];
  const toAsk = asked === 0 ? '' : `${things(asked, 'thing')} to ask about first.`;
  const object = questioned === 0 ? '' : `They may question ${things(questioned, 'thing')}.`;
  if (refused > 0) {
    const final = findings.some(({ weight, final: lasting }) => weight === 'refused' && lasting);
    const lasting = final ? ' Some of it can’t be undone.' : '';
    const turned = state === 'left with them' ? 'They may send it back' : 'You would be turned away';
    const say = `${turned}: ${things(refused, 'reason')}.${lasting}`;
    return { tone: 'red', say, first: firstOf(findings, 'refused'), more: together(object, toAsk) };
  }
  if (questioned > 0)
    return { tone: 'ochre', say: object, first: firstOf(findings, 'questioned'), more: together(toAsk) };
  if (asked > 0)
    return {
      tone: 'violet',
      say: `Ask before you go: ${things(asked, 'thing')} ${asked === 1 ? 'rests' : 'rest'} on an assumption.`,
    };
  const say = own ? 'Nothing on file speaks against it.' : 'Nothing on file speaks against going; the office decides.';
  return { tone: 'green', say };
}

/** "They turned it away": how it came back, as a sentence begins. */
export function cameBackInWords(how: CameBack | undefined): string {
  switch (how) {
    case 'turned away':
      return 'They turned it away';
    case 'not passed':
      return 'They did not pass it';
    case 'sent back':
    case undefined:
      return 'They sent it back';
  }
}

/** Their comments stand in a sentence of their own; what else holds it up is told beside it, answered or not. */
function sentBack(reading: ErrandReading, { own, comments }: Pick<VerdictCase, 'own' | 'comments'>): Verdict {
  const findings = reading.findings.filter(({ sort }) => sort !== 'not answered');
  const rest = { ...reading, findings };
  const told = tooEarly(rest, own) ?? foretold(rest, own);
  const how = cameBackInWords(reading.cameBack);
  const passed = reading.cameBack === 'not passed';
  const left = things(comments, passed ? 'correction' : 'comment');
  const say =
    comments === 0
      ? `${how}; no ${passed ? 'correction' : 'comment'} is left to answer.`
      : `${how}${passed ? ':' : ' with'} ${left} to answer.`;
  return { tone: 'red', say, more: together(told.say, told.first, told.more) };
}

/** What lies with them and they may still object to; what only has to be asked is no matter any more. */
function lyingThere(reading: ErrandReading, own: boolean): Verdict {
  const { withThem, day } = reading;
  const { say, first, tone } = foretold(reading, own);
  const answer = withThem === undefined ? undefined : `Their answer: ${answerDueInWords(withThem, day)}.`;
  const open = tone === 'red' || tone === 'ochre' ? [say, first] : [];
  return { tone: 'violet', say: 'They have your papers; you wait.', more: together(answer, ...open) };
}

export interface VerdictCase {
  /** The errand is the owner's own. */
  readonly own: boolean;
  /** Their comments that nobody has answered yet. */
  readonly comments: number;
  /** Why going today would be too soon, where it would. */
  readonly soon?: string | undefined;
}

/** One line in words: what the office will say to this errand on the day. */
export function verdictOf(reading: ErrandReading, given: VerdictCase): Verdict {
  const { own, soon } = given;
  switch (reading.state) {
    case 'settled':
      return { tone: 'green', say: 'Settled. Whatever they gave you has to be kept: see what it brings home.' };
    case "doesn't apply":
      return { tone: 'pencil', say: 'This errand isn’t asked of your lot, as it is described now.' };
    case 'left with them':
      return lyingThere(reading, own);
    case 'sent back':
      return sentBack(reading, given);
    case "can't go yet":
      return tooEarly(reading, own) ?? foretold(reading, own);
    case 'can go': {
      const told = foretold(reading, own);
      if (soon === undefined) return told;
      const tone = told.tone === 'green' ? 'ochre' : told.tone;
      return { tone, say: soon, more: together(told.say, told.first, told.more) };
    }
  }
}

/** The whole of it, where a line is not broken up. */
export function verdictInWords({ say, first, more }: Verdict): string {
  return together(say, first, more) ?? '';
}
