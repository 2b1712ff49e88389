import type { Block } from '../../typeset/flow.ts';
import { wording } from '../../typeset/wording.ts';
import { dayInWords, dayWithWeekday } from '../../vocabulary/days.ts';
import type { Finding } from '../../vocabulary/finding.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Basis } from '../../vocabulary/practice.ts';
import type { PlanFile } from '../plan-model.ts';
import type { PlanFrame } from './frame.ts';
import { printBlocks } from './print-blocks.ts';

/** Everything on the owner's own sheet, in the order of the trip. */
export function errandBlocks(frame: PlanFrame, files: readonly PlanFile[]): readonly Block[] {
  const told = frame.errand === undefined && frame.findings.length === 0 ? [] : findingBlocks(frame);
  // Nobody goes with a draft: what has to become of it comes before where to go and what to carry.
  return [
    ...(frame.draft ? [...notYetBlocks(frame), ...told] : []),
    ...whereBlocks(frame),
    ...backBlocks(frame),
    ...carryBlocks(frame),
    ...printBlocks(frame, files),
    ...(frame.draft ? [] : told),
    ...askBlocks(frame),
    ...cautionBlocks(frame),
  ];
}

/** What the trip costs: the office's fee, or its price for coming a second time. */
function feeOf({ errand, order }: PlanFrame): number | undefined {
  const again = order.purpose.of === 'errand' && order.purpose.back?.again === true;
  return again && errand?.againFee !== undefined ? errand.againFee : errand?.fee;
}

/** Their numbered comments, each to be ticked off before anybody goes again. */
function backBlocks({ order }: PlanFrame): readonly Block[] {
  const comments = order.purpose.of === 'errand' ? (order.purpose.back?.comments ?? []) : [];
  const items = comments.map(({ number, text, due }): Block => {
    const said = `${number}.  ${text}`;
    return { block: 'item', text: said, ...(due === undefined ? {} : { more: `answer by ${dayInWords(due)}` }) };
  });
  return items.length === 0 ? [] : [{ block: 'heading', text: wording.errand.back }, ...items];
}

function whereBlocks(frame: PlanFrame): readonly Block[] {
  const { office, errand, order, recipient, draft, findings } = frame;
  const price = feeOf(frame);
  const fee = price === undefined ? undefined : price === 0 ? 'none' : moneyInWords(price);
  const feeLine = [fee, price !== errand?.fee ? wording.errand.again : errand?.feeNote]
    .filter((part) => part !== undefined)
    .join(', ');
  const fields: readonly (readonly [string, string | undefined])[] = [
    ['go to', office?.title ?? recipient],
    ['on', dayWithWeekday(order.day)],
    ['street', office?.street],
    ['hours', office?.hours],
    ['papers in until', office?.intakeUntil],
    ['phone', office?.phone],
    ['fee', feeLine === '' ? (errand === undefined ? undefined : 'not known: ask') : feeLine],
    ['payable to', office?.payee],
    ['how paid', office?.pays],
    ['who appears', errand?.appear ?? office?.appear],
    ['appointment', errand?.appointment ?? office?.appointment],
  ];
  const known = fields.flatMap(([label, value]): readonly Block[] =>
    value === undefined || value === '' ? [] : [{ block: 'field', label, value }],
  );
  const unknown = fields.flatMap(([label, value]) => (office !== undefined && value === undefined ? [label] : []));
  const ask: readonly Block[] =
    unknown.length === 0
      ? []
      : [{ block: 'space' }, { block: 'text', text: `Not recorded yet: ${unknown.join(', ')}.`, quiet: true }];
  const lines = draft ? [] : foretold(findings);
  const told = lines.flatMap((text): readonly Block[] => [{ block: 'space' }, { block: 'text', text }]);
  return [{ block: 'heading', text: wording.errand.where }, ...known, ...ask, ...told];
}

/** "Not to hand in yet", how much speaks against it, and the first day it could go. */
function notYetBlocks({ errand, firstDay, findings }: PlanFrame): readonly Block[] {
  const lines = [
    'The packet is a DRAFT, and its margins say so: don’t hand it in like this.',
    ...(errand === undefined || firstDay === undefined
      ? []
      : [`By what is on file, the first day you can go is ${dayWithWeekday(firstDay)}.`]),
    ...foretold(findings),
  ];
  return [
    { block: 'heading', text: wording.errand.notYet },
    ...lines.map((text): Block => ({ block: 'text', text })),
    { block: 'space' },
  ];
}

/** On the first sheet, how much of each weight follows: "1 refused, 3 questioned". */
function foretold(findings: readonly Finding[]): readonly string[] {
  const counts = (['refused', 'questioned', 'ask first'] as const).flatMap((weight) => {
    const count = findings.filter((finding) => finding.weight === weight).length;
    return count === 0 ? [] : [`${count} ${weight}`];
  });
  return counts.length === 0 ? [] : [`${wording.errand.findings}: ${counts.join(', ')}.`];
}

function findingBlocks({ findings, order, errand }: PlanFrame): readonly Block[] {
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
  // What to carry and what to take care of have their own places on the sheet.
  const told = findings.filter(({ sort, say }) => sort !== 'bring' && say !== errand?.caution);
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

function carryBlocks(frame: PlanFrame): readonly Block[] {
  const { rows, errand, order } = frame;
  const items: Block[] = [];
  for (const row of rows) {
    if (row.tab.place !== 'by hand' || row.tab.seeTab !== undefined) continue;
    const use = row.need?.use === 'show' ? 'show it and take it back' : 'leave it with them';
    items.push({ block: 'item', text: row.tab.title, more: `the original; ${use}` });
  }
  for (const row of rows) {
    if (row.need?.seal.includes('wet') !== true || row.sealed) continue;
    if (row.tab.place === 'by hand' || row.edition === undefined) continue;
    const only = row.need.seal.includes('digital') ? ', if it is sealed on paper' : '';
    const more = 'a print of the file bears no seal';
    items.push({ block: 'item', text: `${row.tab.title}: the wet-sealed original${only}`, more });
  }
  for (const thing of errand?.bring ?? []) items.push({ block: 'item', text: thing });
  for (const thing of errand?.onSite ?? []) items.push({ block: 'item', text: thing, more: 'ready on the site' });
  const fee = feeOf(frame) ?? 0;
  if (fee > 0) items.push({ block: 'item', text: `Fee: ${moneyInWords(fee)}` });
  const home = (errand?.yields ?? []).map(
    (kind): Block => ({ block: 'item', text: order.practice.papers[kind]?.title ?? kind }),
  );
  return [
    ...(items.length === 0 ? [] : [{ block: 'heading', text: wording.errand.carry } as const, ...items]),
    ...(home.length === 0 ? [] : [{ block: 'heading', text: wording.errand.bringHome } as const, ...home]),
  ];
}

function askBlocks({ errand, findings }: PlanFrame): readonly Block[] {
  const questions = [
    ...(errand?.ask ?? []),
    ...findings.filter(({ weight }) => weight === 'ask first').map(({ remedy }) => remedy.say),
  ];
  const items = [...new Set(questions)].map((text): Block => ({ block: 'item', text }));
  return items.length === 0 ? [] : [{ block: 'heading', text: wording.errand.ask }, ...items];
}

function cautionBlocks({ errand, rows }: PlanFrame): readonly Block[] {
  const conditions = rows.flatMap((row) => (row.edition === undefined ? [] : (row.kind?.conditions ?? [])));
  const lines = [
    ...(errand?.caution === undefined ? [] : [errand.caution]),
    ...new Set(conditions),
    wording.errand.decide,
  ];
  return [
    { block: 'heading', text: wording.errand.caution },
    ...lines.flatMap((text, at): readonly Block[] => [
      ...(at === 0 ? [] : [{ block: 'space' } as const]),
      { block: 'text', text },
    ]),
  ];
}
