import type { FontMetrics } from '../../typeset/drawing.ts';
import { errandSheets } from '../../typeset/sheets/errand-sheet.ts';
import { dayWithWeekday } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type Finding, weights } from '../../vocabulary/finding.ts';
import type { Delivery, Errand } from '../../vocabulary/practice.ts';
import type { PacketOrder, PacketPlan, PlanFile } from '../plan-model.ts';
import { besideFiles } from './beside.ts';
import { layBody, leafBytes } from './body.ts';
import { errandBlocks } from './errand-content.ts';
import type { PlanFrame } from './frame.ts';
import { asciiName, codeOf, FileNames } from './names.ts';
import { planNotes } from './notes.ts';
import { packetFiles } from './packet-files.ts';
import { printShopFile } from './print-shop.ts';
import type { Rows } from './row.ts';
import { errandRows, ownChoiceRows } from './rows.ts';
import { separateFiles } from './separate-files.ts';
import { fileBytes, splitVolumes } from './volumes.ts';

type Assembled = Extract<PlanFile, { of: 'assembled' }>;

/**
 * Lays a packet out as data: files, sheets, tabs, stamps, links, bookmarks. Nothing is read or written.
 * @throws LotfileError 'packet refused' where an override would clear what can't be undone;
 * 'not found' where a paper of the order is not in the lot.
 */
export function planPacket(order: PacketOrder, metrics: FontMetrics): PacketPlan {
  const start = startOf(order);
  refuseFinal(order, start.findings);
  const missing = start.rows.rows.some((row) => row.tab.place === 'missing');
  const draft = order.override === undefined && (missing || start.findings.some(({ weight }) => weight === 'refused'));
  const stem = asciiName([order.lot.title, start.code, start.subject, order.day].join(' ')).toLowerCase();
  const frame: PlanFrame = {
    order,
    metrics,
    code: start.code,
    title: start.title,
    recipient: start.recipient,
    errand: start.errand,
    subject: start.subject === '' ? undefined : start.subject,
    office: start.errand === undefined ? undefined : order.practice.offices[start.errand.office],
    delivery: start.delivery,
    rows: start.rows.rows,
    findings: start.findings,
    draft,
    firstDay: order.purpose.of === 'errand' ? order.purpose.reading.firstDay : undefined,
    names: new FileNames(start.delivery),
    stem,
    notes: [...start.rows.notes],
    replaced: new Set(),
  };
  const files = allFiles(frame);
  return {
    code: frame.code,
    title: frame.title,
    errand: frame.errand?.id,
    office: frame.office?.id,
    recipient: frame.recipient,
    day: order.day,
    delivery: frame.delivery,
    draft,
    override: order.override,
    tabs: frame.rows.map((row) => row.tab),
    files,
    findings: frame.findings,
    notes: planNotes(frame, files),
  };
}

interface Start {
  readonly code: string;
  readonly title: string;
  /** What this making of the errand is for, "Draw 3"; empty where there is only one. */
  readonly subject: string;
  readonly recipient: string;
  readonly errand: Errand | undefined;
  readonly delivery: Delivery;
  readonly rows: Rows;
  readonly findings: readonly Finding[];
}

function startOf(order: PacketOrder): Start {
  const { purpose, practice } = order;
  if (purpose.of === 'own choice') {
    return {
      code: codeOf(purpose.title),
      title: purpose.title,
      subject: '',
      recipient: purpose.recipient,
      errand: undefined,
      delivery: purpose.delivery,
      rows: ownChoiceRows(order, purpose),
      findings: heaviestFirst(purpose.findings ?? []),
    };
  }
  const { reading } = purpose;
  const errand = practice.errands[reading.errand];
  if (errand === undefined) {
    throw new LotfileError('not found', `The practice of this lot knows no errand "${reading.errand}".`, {
      about: reading.errand,
      next: 'Look at the list of errands.',
    });
  }
  const subject = order.lot.subjects.find((one) => one.id === reading.subject);
  const forThem = errand.packetTitle ?? errand.title;
  return {
    code: codeOf(errand.id),
    title: subject === undefined ? forThem : `${forThem}: ${subject.title}`,
    subject: subject?.title ?? '',
    recipient: practice.offices[errand.office]?.title ?? errand.office,
    errand,
    delivery: errand.deliver,
    rows: errandRows(order, errand, reading.needs),
    findings: heaviestFirst(reading.findings),
  };
}

function heaviestFirst(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort((a, b) => weights.indexOf(a.weight) - weights.indexOf(b.weight));
}

function refuseFinal(order: PacketOrder, findings: readonly Finding[]): void {
  if (order.override === undefined) return;
  // Whatever its weight: a hold that hangs on an unanswered question stays shut until it is answered.
  const final = findings.find((finding) => finding.final);
  if (final === undefined) return;
  throw new LotfileError('packet refused', `This can't be overridden, for it can't be undone: ${final.say}`, {
    about: order.practice.papers[final.kind ?? '']?.title,
    next: final.remedy.say,
  });
}

function allFiles(frame: PlanFrame): readonly PlanFile[] {
  // An errand that takes no papers along (a telephone call, photos of the bare lot) needs no cover for none.
  if (frame.errand !== undefined && frame.rows.length === 0) return [errandSheetFile(frame, [])];
  const beside = besideFiles(frame);
  const packets = frame.delivery.files === 'one file' ? wholePacket(frame, beside) : splitPacket(frame, beside);
  const shop = printShopFile(frame, packets);
  const files = inTabOrder([...packets, ...beside.files, ...(shop === undefined ? [] : [shop])]);
  return [...files, errandSheetFile(frame, files)];
}

/** Files of single papers stand in tab order, whether they were put together or go untouched. */
function inTabOrder(files: readonly PlanFile[]): readonly PlanFile[] {
  const rank = (file: PlanFile): number => {
    if (file.of === 'untouched') return file.tab ?? 0;
    if (file.sort === 'packet') return 0;
    const first = file.sheets[0];
    return file.sort === 'paper' && first?.of === 'paper' ? first.tab : Number.MAX_SAFE_INTEGER;
  };
  return [...files].sort((a, b) => rank(a) - rank(b));
}

type Beside = ReturnType<typeof besideFiles>;

function wholePacket(frame: PlanFrame, beside: Beside): readonly Assembled[] {
  const body = layBody(frame.rows, frame.delivery.dividers);
  const { volumes, tooLarge } = splitVolumes(body, frame.delivery.fileLimit);
  for (const tab of tooLarge) {
    frame.notes.push(
      `"${tab.row.tab.title}" alone is larger than the largest file they take: ask them how to send it.`,
    );
  }
  const total = body.reduce((sum, tab) => sum + tab.sheets.length, 0);
  const files = packetFiles(frame, { volumes, total, beside: beside.byTab });
  return files.filter((file) => file.sheets.length > 0);
}

/** One file per paper; cover and index, where the delivery wants them, in a file of their own before the papers. */
function splitPacket(frame: PlanFrame, beside: Beside): readonly Assembled[] {
  const papers = separateFiles(frame);
  if (!frame.delivery.cover && !frame.delivery.index) return papers;
  const bare = frame.rows.map((row) => ({ ...row, pages: { how: 'none' } as const, riders: [] }));
  const body = layBody(bare, false);
  const total = body.reduce((sum, tab) => sum + tab.sheets.length, 0);
  const separate = new Map(
    papers.flatMap(({ name, sheets: [first] }) => (first?.of === 'paper' ? [[first.tab, name]] : [])),
  );
  return [...packetFiles(frame, { volumes: [body], total, beside: beside.byTab, separate }), ...papers];
}

function errandSheetFile(frame: PlanFrame, files: readonly PlanFile[]): Assembled {
  const { errand, subject } = frame;
  const own = errand === undefined ? frame.title : [errand.title, subject].filter(Boolean).join(': ');
  const sheet = {
    title: own,
    under: `${frame.order.lot.title} · ${dayWithWeekday(frame.order.day)}`,
    blocks: errandBlocks(frame, files),
    margin: (at: number, of: number) => ({
      code: `${frame.code} · PRIVATE`,
      position: `${at + 1} of ${of}`,
      tabs: 0,
      draft: false,
    }),
  };
  const drawings = errandSheets(sheet, frame.metrics, frame.replaced);
  return {
    of: 'assembled',
    sort: 'errand sheet',
    name: new FileNames({}).plain(`PRIVATE-errand-sheet-${frame.stem}`),
    title: `Errand sheet: ${own}`,
    sheets: drawings.map((drawing, at) => ({
      of: 'written',
      sort: 'errand sheet',
      title: `Errand sheet ${at + 1}`,
      drawing,
    })),
    bookmarks: [],
    labels: [{ sheet: 0, style: 'decimal', prefix: '', start: 1 }],
    estimatedBytes: fileBytes + drawings.length * leafBytes,
  };
}
