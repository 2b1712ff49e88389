import type { Finding, FindingSort, Weight } from '../vocabulary/finding.ts';
import type { EditionId } from '../vocabulary/lot.ts';
import { privacyOf } from '../vocabulary/privacy.ts';
import type { Entry } from './lot-index.ts';
import { officeTitle, paperTitle } from './need-case.ts';
import { stateOfEntry } from './paper-state.ts';
import { byWeight, type Mend } from './problem.ts';
import { findingOf } from './remedy.ts';
import { ridersAt } from './riders.ts';
import { displacer, stalenessOf } from './stale.ts';
import { standingAmong } from './standing.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { validityAt, whyOf } from './validity.ts';
import { dayWords, weekdayWords } from './words.ts';

interface Told {
  readonly weight: Exclude<Weight, 'refused'>;
  readonly sort: FindingSort;
  readonly say: string;
  readonly mend: Mend;
}

interface Chosen {
  readonly at: Standpoint;
  readonly entry: Entry;
  readonly title: string;
  readonly all: readonly EditionId[];
}

function again({ entry }: Chosen): Mend {
  return { do: 'get', kind: entry.paper.kind, subject: entry.paper.subject };
}

function unreadable({ entry, title }: Chosen): Told | undefined {
  if (entry.edition.readable) return undefined;
  const mend: Mend = { do: 'say', say: 'Keep it again from a good copy.' };
  return { weight: 'questioned', sort: 'unreadable', say: `${title} can't be read.`, mend };
}

function turnedDown(chosen: Chosen): Told | undefined {
  const { at, entry, title } = chosen;
  const standing = standingAmong(entry.edition, ['refused', 'revoked'], at.day);
  if (standing === undefined) return undefined;
  const say = `${title} doesn't count: ${officeTitle(at, standing.office)} ${standing.word} it on ${dayWords(standing.day)}.`;
  return { weight: 'questioned', sort: 'refused by office', say, mend: again(chosen) };
}

function replaced({ at, entry, title }: Chosen): Told | undefined {
  const by = displacer(at, entry);
  const ridesOnIt = by !== undefined && entry.edition.links.some(({ to }) => to === by.edition.id);
  if (by === undefined || ridesOnIt) return undefined;
  const revision = by.edition.revision === undefined ? '' : ` revision ${by.edition.revision}`;
  const say = `${title} of ${dayWords(entry.dated)} was replaced by${revision === '' ? ' the one' : revision} of ${dayWords(by.dated)}.`;
  return {
    weight: 'questioned',
    sort: 'replaced',
    say,
    mend: { do: 'say', say: 'Choose the newer one, unless the old one is what they want to see.' },
  };
}

function notYet({ at, entry, title }: Chosen): Told | undefined {
  const { issued, received, effective } = entry.edition;
  const mend: Mend = { do: 'say', say: 'Hand it over on or after that day.' };
  const from = issued !== undefined && issued > at.day ? issued : received > at.day ? received : undefined;
  if (from !== undefined) {
    return { weight: 'questioned', sort: 'not issued yet', say: `${title} isn't there until ${dayWords(from)}.`, mend };
  }
  if (effective === undefined || effective <= at.day) return undefined;
  return {
    weight: 'good to know',
    sort: 'too early',
    say: `${title} isn't in force until ${dayWords(effective)}.`,
    mend,
  };
}

function lapse(chosen: Chosen): Told | undefined {
  const { at, entry, title } = chosen;
  const validity = validityAt(at, entry);
  const { good, through } = validity;
  if (good === 'unknown') {
    const mend: Mend = { do: 'say', say: 'Look at the paper and enter the date.' };
    return { weight: 'ask first', sort: 'date unknown', say: `Nobody can say whether ${title} is still good.`, mend };
  }
  if (good === false) {
    const end =
      through === 'ended' || through === 'unknown' || through === 'for good' ? '' : ` after ${dayWords(through)}`;
    return {
      weight: 'questioned',
      sort: 'lapsed',
      say: `${title} lapsed${end}: ${whyOf(validity)}.`,
      mend: again(chosen),
    };
  }
  if (stateOfEntry(at, entry) !== 'lapsing' || through === 'for good' || through === 'unknown' || through === 'ended')
    return undefined;
  return {
    weight: 'good to know',
    sort: 'lapsing',
    say: `${title} lapses after ${weekdayWords(through)}.`,
    mend: again(chosen),
  };
}

function stale(chosen: Chosen): Told | undefined {
  const { at, entry, title } = chosen;
  const found = stalenessOf(at, entry);
  if (found.is === 'fresh') return undefined;
  const newer = `${paperTitle(at, found.by.paper.kind, undefined)} of ${dayWords(found.by.dated)}`;
  if (found.is === 'stale') {
    const say = `${title} was made from ${paperTitle(at, found.from.paper.kind, undefined)} of ${dayWords(found.from.dated)}, which ${newer} replaced.`;
    return { weight: 'questioned', sort: 'stale', say, mend: again(chosen) };
  }
  const say = `It is not noted what ${title} was made from, and ${newer} is newer.`;
  const mend: Mend = { do: 'say', say: 'Look at the paper, and note which edition it was made from.' };
  return { weight: 'ask first', sort: 'stale', say, mend };
}

function privacy({ at, entry, title }: Chosen): Told | undefined {
  const kept = privacyOf(entry.paper.kind, at.practice.papers);
  if (kept === 'open') return undefined;
  if (kept === 'no rule') {
    const say = `No rule knows "${entry.paper.title}": it may be private. It goes in because you chose it yourself.`;
    const mend: Mend = { do: 'say', say: 'Look through it before it leaves your hand.' };
    return { weight: 'good to know', sort: 'caution', say, mend };
  }
  const mend: Mend = { do: 'say', say: 'Leave it out unless they asked for this very paper.' };
  return {
    weight: 'good to know',
    sort: 'caution',
    say: `${title} is private. It goes in because you chose it yourself.`,
    mend,
  };
}

function riders({ at, entry, title, all }: Chosen): readonly Told[] {
  return ridersAt(at, entry)
    .filter(({ edition }) => !all.includes(edition.id))
    .map((rider) => {
      const other = `${paperTitle(at, rider.paper.kind, rider.paper.subject)} of ${dayWords(rider.dated)}`;
      const say = `${title} counts as it does only with ${other}, and that isn't chosen.`;
      return { weight: 'questioned', sort: 'missing', say, mend: { do: 'say', say: 'Choose that one too.' } };
    });
}

function findingsOn(chosen: Chosen): readonly Finding[] {
  const { at, entry } = chosen;
  // What was turned down or replaced is no more to be said of: how long it would be good interests nobody.
  const down = turnedDown(chosen) ?? replaced(chosen);
  const rest = down === undefined ? [lapse(chosen), stale(chosen), ...riders(chosen)] : [down];
  const told = [unreadable(chosen), notYet(chosen), ...rest, privacy(chosen)].filter((one) => one !== undefined);
  return told.map((one) =>
    findingOf(at, {
      ...one,
      kind: entry.paper.kind,
      paper: entry.paper.id,
      edition: entry.edition.id,
      subject: entry.paper.subject,
      office: kindOf(at, entry.paper.kind)?.from,
      why: 'You chose it yourself; whoever gets it may ask.',
      basis: { on: 'common practice' },
      final: false,
    }),
  );
}

/**
 * What may be objected to in papers of the owner's own choosing. No office's rule is read, so nothing is ever
 * refused. Heaviest first; of one weight in the order chosen, each paper once. What the lot doesn't hold is passed over.
 */
export function readChosen(editions: readonly EditionId[], asked: Asked): readonly Finding[] {
  const at = indexLot(asked);
  const all = [...new Set(editions)];
  return all
    .flatMap((id) => {
      const entry = at.index.entries.get(id);
      if (entry === undefined) return [];
      return findingsOn({ at, entry, all, title: paperTitle(at, entry.paper.kind, entry.paper.subject) });
    })
    .toSorted(byWeight);
}
