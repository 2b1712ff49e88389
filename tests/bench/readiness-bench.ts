import { readdirSync, readFileSync } from 'node:fs';
import { figures } from '../../core/figures/index.ts';
import { readPractice } from '../../core/practice/index.ts';
import { readAgreements, readDuties, readErrands, readHolds, readWay } from '../../core/readiness/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { FactValue } from '../../core/vocabulary/facts.ts';
import type { Edition, LotView, Paper, Subject } from '../../core/vocabulary/lot.ts';
import type { PaperKind, Practice } from '../../core/vocabulary/practice.ts';

/** One measured lot: milliseconds for all findings, duties, holds and the way, from a lot never seen before. */
export interface ReadinessNumbers {
  readonly papers: number;
  readonly editions: number;
  /** The first lot this process looks at: nothing is compiled yet. */
  readonly firstMs: number;
  /** The middle of later lots of the same size, each indexed afresh. */
  readonly againMs: number;
  /** Asking the same standpoint once more. */
  readonly rememberedMs: number;
  readonly findings: number;
}

const today: Day = '2026-04-14';
const folder = new URL('../../templates/practice/common/', import.meta.url);

function commonPractice(): Practice {
  const layers = readdirSync(folder)
    .toSorted((a, b) => a.localeCompare(b))
    .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }));
  return readPractice(layers, { figures: Object.keys(figures) });
}

const samples: Readonly<Record<FactValue['sort'], FactValue>> = {
  text: { sort: 'text', value: 'as printed' },
  name: { sort: 'name', value: 'Tomás Lindqvist' },
  address: { sort: 'address', value: '418 Heron Ln' },
  'parcel number': { sort: 'parcel number', value: '041-22-0070' },
  revision: { sort: 'revision', value: 'B' },
  choice: { sort: 'choice', value: 'X' },
  count: { sort: 'count', value: 3 },
  number: { sort: 'number', value: 4 },
  length: { sort: 'length', value: 1 },
  area: { sort: 'area', value: 1850 },
  volume: { sort: 'volume', value: 14_800 },
  flow: { sort: 'flow', value: 740 },
  percent: { sort: 'percent', value: 95 },
  money: { sort: 'money', value: 31_000_000 },
  day: { sort: 'day', value: '2026-03-02' },
  'yes or no': { sort: 'yes or no', value: true },
  elevation: { sort: 'elevation', value: { feet: 101.5, datum: 'NAVD 88' } },
};

function edition(id: string, paper: string, kind: PaperKind, issued: Day): Edition {
  const facts = Object.fromEntries(Object.values(kind.facts).map((fact) => [fact.id, samples[fact.sort]]));
  return {
    id,
    paper,
    received: issued,
    issued,
    goodThrough: addDays(issued, 400),
    facts,
    marks: ['signed', 'dated'],
    standings: [],
    links: [],
    physicalOnly: false,
    sealed: false,
    readable: true,
    pages: 2,
    sheets: ['letter'],
  };
}

/** A lot of `count` papers: every kind of the practice twice over, firms with three papers each, the rest loose papers. */
function makeLot(practice: Practice, count: number, salt: number): LotView {
  const kinds = Object.values(practice.papers);
  const each = kinds.filter((kind) => kind.each === 'engagement');
  const firms = Math.floor(count / 20);
  const subjects: Subject[] = Array.from({ length: firms }, (_, n) => ({
    id: `firm-${n}`,
    sort: 'engagement',
    title: `Firm ${n}`,
    from: addDays(today, -(n % 90)),
    to: n < 30 ? undefined : addDays(today, -1),
  }));
  const papers: Paper[] = [];
  const add = (kind: PaperKind, subject: string | undefined, editions: number): void => {
    const id = `p${salt}-${papers.length}`;
    const made = Array.from({ length: editions }, (_, n) =>
      edition(`${id}-${n}`, id, kind, addDays(today, -((papers.length * 7 + n) % 300))),
    );
    papers.push({ id, kind: kind.id, title: kind.title, subject, editions: made });
  };
  for (const kind of kinds) if (kind.each === undefined && papers.length % 3 !== 2) add(kind, undefined, 2);
  for (const subject of subjects) for (const kind of each) add(kind, subject.id, 1);
  const other = kinds.find((kind) => kind.id === 'other');
  while (papers.length < count && other !== undefined) add(other, undefined, 1);
  return {
    title: 'Heron Lane',
    target: '2027-03-01',
    answers: {
      sewage: { sort: 'choice', value: 'septic' },
      lender: { sort: 'yes or no', value: true },
      owner_builds: { sort: 'yes or no', value: true },
    },
    identities: [{ sort: 'place', text: '418 Heron Lane' }],
    sameAs: [],
    subjects,
    events: [],
    papers,
    visits: [],
  };
}

function readAll(practice: Practice, lot: LotView): number {
  const asked = { practice, lot, day: today };
  const way = readWay(asked);
  const findings = Object.keys(practice.errands).flatMap((id) => readErrands(id, asked).flatMap((one) => one.findings));
  const others = [...readDuties(asked), ...readHolds(asked)].flatMap((one) => one.findings);
  return findings.length + others.length + readAgreements(asked).length + way.today.length;
}

function timed(work: () => number): readonly [milliseconds: number, findings: number] {
  const begun = performance.now();
  const findings = work();
  return [performance.now() - begun, findings];
}

function measure(practice: Practice, count: number): ReadinessNumbers {
  const lots = Array.from({ length: 10 }, (_, salt) => makeLot(practice, count, salt));
  const runs = lots.map((lot) => timed(() => readAll(practice, lot)));
  const [first = [0, 0], ...later] = runs;
  const again = later.map(([milliseconds]) => milliseconds).toSorted((a, b) => a - b);
  const [lot] = lots;
  return {
    papers: count,
    editions: lot?.papers.reduce((sum, paper) => sum + paper.editions.length, 0) ?? 0,
    firstMs: first[0],
    againMs: again[Math.floor(again.length / 2)] ?? 0,
    rememberedMs: lot === undefined ? 0 : timed(() => readAll(practice, lot))[0],
    findings: first[1],
  };
}

/**
 * All findings, duties, holds and the way of lots of 400 and 10,000 papers over the common practice.
 * @returns the numbers by name, milliseconds unless the name says otherwise.
 */
export function benchReadiness(): Readonly<Record<string, number>> {
  const practice = commonPractice();
  const named = [400, 10_000].flatMap((count) => {
    const { firstMs, againMs, rememberedMs, findings } = measure(practice, count);
    const what = `${count} papers`;
    return [
      [`${what}, first lot in the process`, firstMs],
      [`${what}, later lots`, againMs],
      [`${what}, asked again`, rememberedMs],
      [`${what}, findings told (count)`, findings],
    ];
  });
  return Object.fromEntries(named);
}
