import { readdirSync, readFileSync } from 'node:fs';
import { officeWord } from '../../core/practice/office-word.ts';
import { readPractice } from '../../core/practice/read-practice.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { FactSort, FactValue } from '../../core/vocabulary/facts.ts';
import type { Edition, LotView, Paper, Visit } from '../../core/vocabulary/lot.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { readFact } from '../../core/vocabulary/said-facts.ts';
import { readStory, type Story, type StoryPaper } from '../../sample-project/story-model.ts';

const common = new URL('../../templates/practice/common/', import.meta.url);
const local = new URL('../../sample-project/practice/brindlemoor.yaml', import.meta.url);

/** Common practice, the invented county's amendments, and what its offices said by that day. */
export function practiceOn(story: Story, day: Day): Practice {
  const layers = [
    ...readdirSync(common)
      .sort()
      .map((name) => ({ name, text: readFileSync(new URL(name, common), 'utf8') })),
    { name: 'brindlemoor.yaml', text: readFileSync(local, 'utf8') },
  ];
  return readPractice([...layers, ...story.words.filter((word) => word.day <= day).map((word) => officeWord(word))]);
}

function facts(said: Readonly<Record<string, string>>, sortOf: (id: string) => FactSort): Record<string, FactValue> {
  return Object.fromEntries(Object.entries(said).map(([id, text]) => [id, readFact(sortOf(id), text, id)]));
}

function editionOf(paper: StoryPaper, practice: Practice, day: Day): Edition {
  const rules = practice.papers[paper.kind]?.facts ?? {};
  return {
    id: paper.key,
    paper: `${paper.kind}/${paper.subject ?? ''}`,
    received: paper.from_day,
    issued: paper.issued,
    effective: paper.effective,
    goodThrough: paper.good_through,
    number: paper.number,
    issuer: paper.issuer,
    revision: paper.revision,
    facts: facts(paper.facts, (id) => {
      const rule = rules[id];
      if (rule === undefined) throw new Error(`${paper.key}: the practice knows no fact "${id}" of ${paper.kind}.`);
      return rule.sort;
    }),
    marks: paper.marks,
    standings: paper.standings.filter((standing) => standing.day <= day),
    links: paper.links,
    physicalOnly: paper.physical_only,
    sealed: paper.marks.includes('digitally sealed'),
    readable: true,
    pages: 1,
    sheets: paper.kind === 'plans' ? ['arch-d'] : ['letter'],
  };
}

function visitsBy(story: Story, day: Day): Visit[] {
  return story.visits
    .filter((visit) => visit.day <= day)
    .map((visit, i) => {
      const over = visit.settled !== undefined && visit.settled <= day;
      return {
        id: `visit ${i}`,
        errand: visit.errand,
        subject: visit.subject,
        day: over ? (visit.settled ?? visit.day) : visit.day,
        state: over ? 'settled' : 'left with them',
        outcome: over ? visit.outcome : undefined,
      };
    });
}

/** The lot as it stood on a day of its story. */
export function lotOn(day: Day): { lot: LotView; practice: Practice; story: Story } {
  const story = readStory();
  const practice = practiceOn(story, day);
  const papers = new Map<string, Paper>();
  for (const paper of story.papers.filter((one) => one.from_day <= day)) {
    const id = paper.kind === 'other' ? paper.key : `${paper.kind}/${paper.subject ?? ''}`;
    const before = papers.get(id)?.editions ?? [];
    const edition = { ...editionOf(paper, practice, day), paper: id };
    papers.set(id, {
      id,
      kind: paper.kind,
      title: paper.title ?? id,
      subject: paper.subject,
      editions: [...before, edition],
    });
  }
  const lot: LotView = {
    title: story.title,
    target: story.target,
    answers: facts(story.answers, (id) => practice.questions[id]?.sort ?? 'text'),
    identities: story.identities,
    sameAs: story.same_as,
    subjects: story.subjects.map(({ key, ...subject }) => ({ id: key, ...subject })),
    events: story.events.filter((event) => event.day <= day),
    papers: [...papers.values()],
    visits: visitsBy(story, day),
  };
  return { lot, practice, story };
}
