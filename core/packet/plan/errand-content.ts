import type { Block } from '../../typeset/flow.ts';
import { wording } from '../../typeset/wording.ts';
import { comesOut } from '../../vocabulary/coming-out.ts';
import { dayInWords, dayWithWeekday } from '../../vocabulary/days.ts';
import type { Finding, FindingSort } from '../../vocabulary/finding.ts';
import { answerDueInWords } from '../../vocabulary/in-words.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Basis } from '../../vocabulary/practice.ts';
import { verdictInWords, verdictOf } from '../../vocabulary/verdict.ts';
import type { PlanFile, Trip } from '../plan-model.ts';
import { askBlocks } from './errand-questions.ts';
import type { PlanFrame } from './frame.ts';
import { onScreen } from './on-screen.ts';
import { printBlocks } from './print-blocks.ts';

/** Everything on the owner's own sheet, in the order of the trip. */
export function errandBlocks(frame: PlanFrame, files: readonly PlanFile[]): readonly Block[] {
  const told = frame.errand === undefined && frame.findings.length === 0 ? [] : findingBlocks(frame);
  // Nobody goes with a draft: what has to become of it comes before where to go and what to carry.
  return [
    ...backBlocks(frame),
    ...(frame.draft ? [...notYetBlocks(frame), ...told] : []),
    ...whereBlocks(frame),
    ...carryBlocks(frame),
    ...printBlocks(frame, files),
    ...(frame.draft ? [] : told),
    ...askBlocks(frame),
    ...cautionBlocks(frame),
  ];
}

function tripOf({ order, errand }: PlanFrame): Partial<Trip> {
  if (order.purpose.of === 'errand' && order.purpose.trip !== undefined) return order.purpose.trip;
  return { fee: errand?.fee, feeNote: errand?.feeNote };
}

/** Their numbered comments, each to be ticked off before anybody goes again. */
function backBlocks(frame: PlanFrame): readonly Block[] {
  const items = (tripOf(frame).comments ?? []).map(({ number, text, due }): Block => {
    const said = `${number}.  ${text}`;
    return { block: 'item', text: said, ...(due === undefined ? {} : { more: `answer by ${dayInWords(due)}` }) };
  });
  const heading = frame.errand?.inspection === true ? wording.errand.putRight : wording.errand.toAnswer;
  return items.length === 0 ? [] : [{ block: 'heading', text: heading }, ...items, { block: 'space' }];
}

/** Whom one goes or sends to and when, or who comes out and on which day. */
function meetFields(frame: PlanFrame): readonly (readonly [string, string | undefined])[] {
  const { office, errand, order, recipient, draft, firstDay } = frame;
  const whom = office?.title ?? recipient;
  const hours = ['hours', office?.hours] as const;
  // With a draft nobody goes today.
  const on =
    draft && firstDay !== undefined ? `${dayWithWeekday(firstDay)} at the earliest` : dayWithWeekday(order.day);
  if (office?.sort === 'owner') return [['on', on]];
  const lies = order.purpose.of === 'errand' ? order.purpose.reading.withThem : undefined;
  if (lies !== undefined) {
    const [since, answer] = [dayWithWeekday(lies.since), answerDueInWords(lies, order.day)];
    return [['with them', whom], ['since', since], ['their answer', answer], ['street', office?.street], hours];
  }
  if (errand === undefined || !comesOut(errand)) {
    const towards = onScreen(frame.delivery) ? 'send to' : 'go to';
    return [[towards, whom], ['on', on], ['street', office?.street], hours, ['papers in until', office?.intakeUntil]];
  }
  const { booked, soonest } = tripOf(frame);
  const from = soonest === undefined ? '' : `; ${dayWithWeekday(soonest)} at the earliest`;
  return [
    ['they come from', whom],
    ['on', booked === undefined ? `no day is booked yet${from}` : dayWithWeekday(booked)],
    hours,
  ];
}

function whereBlocks(frame: PlanFrame): readonly Block[] {
  const { office, errand, draft } = frame;
  const { fee: price, feeNote } = tripOf(frame);
  const fee = price === undefined ? undefined : price === 0 ? 'none' : moneyInWords(price);
  const feeLine = [fee, feeNote].filter((part) => part !== undefined).join(', ');
  const out = errand !== undefined && comesOut(errand);
  const fields: readonly (readonly [string, string | undefined])[] = [
    ...meetFields(frame),
    ['phone', office?.phone],
    ['fee', feeLine === '' ? (errand === undefined ? undefined : 'not known: ask') : feeLine],
    ['payable to', office?.payee],
    ['how paid', office?.pays],
    [out ? 'who must be there' : 'who appears', errand?.appear ?? office?.appear],
    ['appointment', errand?.appointment ?? office?.appointment],
  ];
  const known = fields.flatMap(([label, value]): readonly Block[] =>
    value === undefined || value === '' ? [] : [{ block: 'field', label, value }],
  );
  const others = office !== undefined && office.sort !== 'owner';
  const unknown = fields.flatMap(([label, value]) => (others && value === undefined ? [label] : []));
  const ask: readonly Block[] =
    unknown.length === 0
      ? []
      : [{ block: 'space' }, { block: 'text', text: `Not recorded yet: ${unknown.join(', ')}.`, quiet: true }];
  const lines = draft ? [] : foretold(frame);
  const told = lines.flatMap((text): readonly Block[] => [{ block: 'space' }, { block: 'text', text }]);
  return [{ block: 'heading', text: wording.errand.where }, ...known, ...ask, ...told];
}

/** "Not to hand in yet", what they would say of it as it is, and the first day it could go. */
function notYetBlocks(frame: PlanFrame): readonly Block[] {
  const { errand, firstDay } = frame;
  const lines = [
    'The packet is a DRAFT, and its margins say so: don’t hand it in like this.',
    ...(errand === undefined || firstDay === undefined
      ? []
      : [`By what is on file, the first day you can go is ${dayWithWeekday(firstDay)}.`]),
    ...unanswered(frame),
    ...foretold(frame),
  ];
  return [
    { block: 'heading', text: wording.errand.notYet },
    ...lines.map((text): Block => ({ block: 'text', text })),
    { block: 'space' },
  ];
}

/** What to carry, what to put right and what to take care of have their own places on the sheet. */
const apart: ReadonlySet<FindingSort> = new Set<FindingSort>(['bring', 'not answered']);

function openComments(findings: readonly Finding[]): number {
  return findings.filter(({ sort }) => sort === 'not answered').length;
}

function unanswered({ findings, order: { purpose } }: PlanFrame): readonly string[] {
  const count = openComments(findings);
  // Sent back, the verdict tells it.
  if (count === 0 || (purpose.of === 'errand' && purpose.reading.state === 'sent back')) return [];
  return [count === 1 ? 'One of their comments is still open.' : `${count} of their comments are still open.`];
}

/** What they will say, as the window has it; its first day and their comments stand on lines of their own. */
function foretold({ order: { purpose }, findings, office }: PlanFrame): readonly string[] {
  if (purpose.of !== 'errand') return [];
  const heavy = findings.filter(({ sort, weight }) => weight !== 'good to know' && !apart.has(sort));
  if (heavy.length === 0) return [];
  const { firstDay: _told, ...rest } = purpose.reading;
  const given = { own: office?.sort === 'owner', comments: openComments(findings) };
  return [verdictInWords(verdictOf({ ...rest, findings: heavy }, given))];
}

function findingBlocks({ findings, order, errand, office }: PlanFrame): readonly Block[] {
  const override: readonly Block[] =
    order.override === undefined
      ? []
      : [
          {
            block: 'text',
            text: `You decided on ${dayInWords(order.override.day)} to go all the same: ${order.override.reason}`,
          },
          { block: 'space' },
        ];
  const heading = { block: 'heading', text: wording.errand.findings } as const;
  const told = findings.filter(({ sort, say }) => !apart.has(sort) && say !== errand?.caution);
  if (told.length === 0 && findings.some(({ sort }) => sort === 'not answered')) return [];
  if (told.length === 0 && office?.sort === 'owner') return [];
  if (told.length === 0) return [heading, ...override, { block: 'text', text: wording.errand.nothing }];
  return [heading, ...override, ...gathered(told).map(findingBlock)];
}

/** Findings of one weight that stand for the same reason on the same word are told together. */
function gathered(findings: readonly Finding[]): readonly (readonly Finding[])[] {
  const key = ({ weight, why, basis }: Finding): string => JSON.stringify([weight, why, basisInWords(basis)]);
  return [...Map.groupBy(findings, key).values()];
}

function findingBlock(findings: readonly Finding[]): Block {
  const [first] = findings;
  const says = findings.map(({ say, remedy }) => {
    // A remedy that names its day ("earliest ...", "expected by ...") doesn't need it said again.
    const day = remedy.earliest === undefined ? '' : dayWithWeekday(remedy.earliest);
    const told = day === '' || remedy.say.includes(day);
    return { say, remedy: told ? remedy.say : `${remedy.say} Earliest: ${day}.` };
  });
  const lines = [
    { label: wording.errand.because, text: first?.why ?? '' },
    { label: wording.errand.source, text: first === undefined ? '' : basisInWords(first.basis) },
  ];
  return {
    block: 'finding',
    bar: first?.weight ?? 'good to know',
    says,
    lines: lines.filter(({ text }) => text !== ''),
  };
}

/** On whose word: "the office told us: R. Amsel, 2 Apr 2026". */
export function basisInWords(basis: Basis): string {
  switch (basis.on) {
    case 'the office told us': {
      const note = basis.note === undefined ? '' : ` (${basis.note})`;
      return `the office told us: ${basis.who}, ${dayInWords(basis.day)}${note}`;
    }
    case 'published':
      return `published: ${basis.source}, read ${dayInWords(basis.read)}`;
    case 'common practice':
      return 'common practice, not this office’s own word';
  }
}

/** The papers that are not in the file: the originals carried by hand, and what is sealed on paper. */
function byHandItems({ rows }: PlanFrame): readonly Block[] {
  const carried = rows.flatMap((row): readonly Block[] => {
    if (row.tab.place !== 'by hand' || row.tab.seeTab !== undefined) return [];
    const use = row.need?.use === 'show' ? 'show it and take it back' : 'leave it with them';
    return [{ block: 'item', text: row.tab.title, more: `the original; ${use}` }];
  });
  const sealed = rows.flatMap((row): readonly Block[] => {
    if (row.need?.seal.includes('wet') !== true || row.sealed) return [];
    if (row.tab.place === 'by hand' || row.edition === undefined) return [];
    const only = row.need.seal.includes('digital') ? ', if it is sealed on paper' : '';
    const more = 'a print of the file bears no seal';
    return [{ block: 'item', text: `${row.tab.title}: the wet-sealed original${only}`, more }];
  });
  return [...carried, ...sealed];
}

/** Where they come out, the papers lie ready there as well. */
function readyPapers({ rows }: PlanFrame): readonly string[] {
  return rows.flatMap((row) => {
    if (row.tab.place === 'by hand' || row.tab.seeTab !== undefined || row.edition === undefined) return [];
    return [row.tab.title];
  });
}

function carryBlocks(frame: PlanFrame): readonly Block[] {
  const { errand, order } = frame;
  const { fee = 0, feeNote } = tripOf(frame);
  const out = errand !== undefined && comesOut(errand);
  const papers = out ? readyPapers(frame) : [];
  // A paper of the packet that practice names among the things as well stands once.
  const named = new Set(papers.map((title) => title.toLowerCase()));
  const things = [...(errand?.bring ?? []), ...(errand?.onSite ?? [])].filter((it) => !named.has(it.toLowerCase()));
  const note = feeNote === undefined ? {} : { more: feeNote };
  const items: readonly Block[] = [
    ...byHandItems(frame),
    ...[...papers, ...things].map((text): Block => ({ block: 'item', text })),
    ...(fee > 0 ? [{ block: 'item', text: `Fee: ${moneyInWords(fee)}`, ...note } as const] : []),
  ];
  const home = (errand?.yields ?? []).map(
    (kind): Block => ({ block: 'item', text: order.practice.papers[kind]?.title ?? kind }),
  );
  const heading = { block: 'heading', text: out ? wording.errand.ready : wording.errand.carry } as const;
  const bring = { block: 'heading', text: wording.errand.bringHome } as const;
  return [...(items.length === 0 ? [] : [heading, ...items]), ...(home.length === 0 ? [] : [bring, ...home])];
}

function cautionBlocks({ errand, rows }: PlanFrame): readonly Block[] {
  const conditions = rows.flatMap(({ edition, kind, tab }) => {
    const own = kind?.conditions ?? [];
    return edition === undefined || own.length === 0 ? [] : [`${tab.title}: ${own.join('; ')}.`];
  });
  const lines = [...(errand?.caution === undefined ? [] : [errand.caution]), ...new Set(conditions)];
  if (lines.length === 0) return [];
  return [
    { block: 'heading', text: wording.errand.caution },
    ...lines.flatMap((text, at): readonly Block[] => [
      ...(at === 0 ? [] : [{ block: 'space' } as const]),
      { block: 'text', text },
    ]),
  ];
}
