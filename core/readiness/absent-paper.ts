import type { KindId } from '../vocabulary/practice.ts';
import { poolOf } from './current.ts';
import type { Entry } from './lot-index.ts';
import { type NeedCase, needProblem, officeTitle, paperTitle } from './need-case.ts';
import { awaitedFrom } from './paper-state.ts';
import type { Mend, Problem } from './problem.ts';
import { isThere, standingAmong } from './standing.ts';
import { visitsMade } from './visits.ts';
import { dayWords } from './words.ts';

function turnedDown(given: NeedCase, there: readonly Entry[]): string | undefined {
  for (const entry of there) {
    const standing = standingAmong(entry.edition, ['refused', 'revoked'], given.at.day);
    if (standing !== undefined) {
      return `${officeTitle(given.at, standing.office)} ${standing.word} it on ${dayWords(standing.day)}`;
    }
  }
  return undefined;
}

function missing(given: NeedCase, kind: KindId): Problem {
  const { at, subject, need } = given;
  const title = paperTitle(at, kind, subject);
  const errand = awaitedFrom(at, kind, subject);
  const day = errand === undefined ? undefined : visitsMade(at, errand, subject).at(-1)?.day;
  const others = need.kinds.filter((other) => other !== kind).map((other) => paperTitle(at, other, subject));
  const instead = others.length === 0 ? '' : `, nor is ${others.join(' or ')}, which would do as well`;
  const say =
    errand === undefined || day === undefined
      ? `${title} is not in hand${instead}.`
      : `${title} is not in hand yet: left with ${officeTitle(at, errand.office)} on ${dayWords(day)}.`;
  const mend: Mend =
    need.fill === undefined
      ? { do: 'get', kind, subject }
      : { do: 'say', say: `Fill the office’s form for ${title} and sign it; then keep the signed one.` };
  return needProblem(given, { kind, sort: 'missing' }, { say, mend });
}

function notYet(given: NeedCase, kind: KindId, entry: Entry): Problem {
  const { issued, received } = entry.edition;
  const day = issued !== undefined && issued > given.at.day ? issued : received;
  const title = paperTitle(given.at, kind, given.subject);
  return needProblem(
    given,
    { kind, entry, sort: 'not issued yet' },
    {
      say: `${title} is dated ${dayWords(day)} and isn't there on ${dayWords(given.at.day)}.`,
      mend: { do: 'say', say: 'Go on or after that day.' },
    },
  );
}

/** Why there is no edition that counts. */
export function absentProblem(given: NeedCase, kind: KindId): Problem {
  const { at, subject, need } = given;
  const pool = poolOf(at, kind, subject);
  const there = pool.filter((entry) => isThere(entry.edition, at.day));
  const later = pool[0];
  const title = paperTitle(at, kind, subject);
  const get: Mend = { do: 'get', kind, subject };
  if (there.length === 0) return later === undefined ? missing(given, kind) : notYet(given, kind, later);
  const down = turnedDown(given, there);
  if (down !== undefined) {
    return needProblem(
      given,
      { kind, entry: there[0], sort: 'refused by office' },
      { say: `${title} doesn't count: ${down}.`, mend: get },
    );
  }
  if (need.approvedBy !== undefined) {
    const office = need.approvedBy;
    const say = `${title} is in hand, but no approval by ${officeTitle(at, office)} is noted on it.`;
    return needProblem(
      given,
      { kind, entry: there[0], sort: 'not approved' },
      { say, mend: { do: 'approve', kind, office, subject } },
    );
  }
  return needProblem(
    given,
    { kind, entry: there[0], sort: 'replaced' },
    { say: `Every edition of ${title} has been replaced, and what replaced it is not in hand.`, mend: get },
  );
}
