import { type Asked, countingEdition, validityOf } from '../../../readiness/index.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { validityInWords } from '../../../vocabulary/in-words.ts';
import type { Edition, Paper } from '../../../vocabulary/lot.ts';
import { privacyOf } from '../../../vocabulary/privacy.ts';
import { kindTitle } from '../../named.ts';
import { subjectTitle, titleFor } from '../asked.ts';

/** An edition that goes into the house record, under its office. */
export interface ChosenEdition {
  readonly paper: Paper;
  readonly edition: Edition;
  readonly title: string;
  readonly office: string;
  readonly earlier: boolean;
  readonly state: string;
}

export interface Chosen {
  readonly editions: readonly ChosenEdition[];
  readonly leftOut: readonly { readonly title: string; readonly why: string }[];
}

/** What its offices and clocks say of it, in a few words. */
function stateOf(edition: Edition, earlier: boolean, asked: Asked): string {
  const last = edition.standings.filter(({ day }) => day <= asked.day).at(-1);
  const said = last === undefined ? '' : `${last.word} ${dayInWords(last.day)}; `;
  if (earlier) return `${said}an earlier one`;
  return `${said}${validityInWords(validityOf(edition, asked))}`;
}

function whyNot(paper: Paper, privates: boolean, { practice }: Asked): string | undefined {
  if (paper.notApplicable !== undefined) return `does not apply: ${paper.notApplicable}`;
  if (privates) return undefined;
  switch (privacyOf(paper.kind, practice.papers)) {
    case 'private':
      return 'private; only on your explicit word';
    case 'no rule':
      return 'no rule knows it, so it may be private; only on your explicit word';
    case 'open':
      return undefined;
  }
}

/** Every edition by the day, by paper in the order of the practice; private ones and those of no rule only where that was said. */
export function chosenEditions(asked: Asked, privates: boolean): Chosen {
  const { lot, practice, day } = asked;
  const order = new Map(Object.keys(practice.papers).map((kind, n) => [kind, n]));
  const last = order.size;
  const papers = lot.papers.toSorted((a, b) => (order.get(a.kind) ?? last) - (order.get(b.kind) ?? last));
  const leftOut: { title: string; why: string }[] = [];
  const editions = papers.flatMap((paper): readonly ChosenEdition[] => {
    const whose = subjectTitle(lot, paper.subject);
    const title = titleFor(paper.kind === 'other' ? paper.title : kindTitle(practice, paper.kind), whose);
    const kept = paper.editions.filter(({ received }) => received <= day);
    const why = whyNot(paper, privates, asked);
    if (why !== undefined) {
      leftOut.push({ title, why });
      return [];
    }
    const current = countingEdition({ kind: paper.kind, subject: paper.subject }, asked);
    return kept.map((edition) => {
      // A paper of its own (kind "other") counts by its newest edition.
      const counts = current !== undefined && current.paper === paper.id ? current.id : kept.at(-1)?.id;
      const rides = edition.links.some(({ word }) => word === 'amends' || word === 'extends' || word === 'continues');
      const earlier = edition.id !== counts && !rides;
      const office = practice.papers[paper.kind]?.from ?? 'owner';
      return { paper, edition, title, office, earlier, state: stateOf(edition, earlier, asked) };
    });
  });
  return { editions, leftOut };
}
