import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { EditionContent, PacketPlan, PacketPurpose, Trip } from '../../packet/plan-model.ts';
import type { WholeFile } from '../../packet/prove-whole.ts';
import { type Asked, feeDue, readChosen, readErrand } from '../../readiness/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { ErrandReading } from '../../vocabulary/finding.ts';
import type { EditionId, LotView } from '../../vocabulary/lot.ts';
import type { Delivery, Practice } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { AssembleAnswer } from '../contract/answers.ts';
import { type RequestInput, requests } from '../contract/requests.ts';
import type { SheetAnswer } from '../contract/screen-answers.ts';
import { editionNamed, errandNamed, subjectNamed } from '../named.ts';
import { renditionTicket, shownPlace } from './file-look.ts';
import { bookedRow, bookingRow } from './inspections/coming.ts';
import { lightFile, renditionsIn } from './light-plan.ts';
import { offerMade } from './made-files.ts';
import { openComments } from './reading.ts';

type Wanted = Pick<RequestInput<'plan'>, 'errand' | 'subject' | 'papers' | 'title' | 'recipient'> &
  Partial<Pick<RequestInput<'plan'>, 'override'>>;

/** How a bundle of the owner's own choosing goes: one file with everything that helps a stranger find their way. */
const ownDelivery: Delivery = {
  way: 'counter',
  sets: 1,
  files: 'one file',
  untouched: false,
  cover: true,
  index: true,
  dividers: false,
  bookmarks: true,
  stamps: true,
  sealedCopy: true,
  basis: { on: 'common practice' },
};

interface Aim {
  readonly practice: Practice;
  readonly view: LotView;
  readonly wanted: Wanted;
  readonly at: AtLot;
}

function purposeOf({ practice, view, wanted, at }: Aim): PacketPurpose {
  if (wanted.papers !== undefined && wanted.papers.length > 0) {
    const reading = { practice, lot: view, day: at.day };
    const editions = wanted.papers.map((said) => editionNamed({ view, practice, day: at.day }, said).edition.id);
    return {
      of: 'own choice',
      title: wanted.title ?? 'Papers as asked for',
      recipient: wanted.recipient ?? 'whom it concerns',
      editions,
      delivery: ownDelivery,
      findings: readChosen(editions, reading),
    };
  }
  if (wanted.errand === undefined) {
    throw new LotfileError('wrong use', 'Neither an errand nor papers were named.', {
      next: 'Name the errand the packet is for, or the papers of your own choosing.',
    });
  }
  const errand = errandNamed(practice, wanted.errand);
  const subject = wanted.subject === undefined ? undefined : subjectNamed(view, wanted.subject).id;
  const asked = { practice, lot: view, day: at.day };
  const reading = readErrand(errand.id, { ...asked, subject });
  return { of: 'errand', reading, trip: tripOf(at, asked, reading) };
}

/** What they said the last time, what going costs now, and for whom comes out to the site, when. */
function tripOf(at: AtLot, asked: Asked, reading: ErrandReading): Trip {
  const { errand: id, subject, firstDay, withThem } = reading;
  const errand = errandNamed(asked.practice, id);
  const { fee, feeNote } = feeDue(id, { ...asked, subject });
  const booked = bookedRow(errand, subject, asked)?.day;
  const soonest = withThem === undefined ? bookingRow(errand, firstDay, asked)?.soonest : undefined;
  return { comments: openComments(at, asked, reading), fee, feeNote, booked, soonest };
}

function editionsIn(purpose: PacketPurpose): readonly EditionId[] {
  if (purpose.of === 'own choice') return purpose.editions;
  return purpose.reading.needs.flatMap(({ edition, riders = [] }) =>
    edition === undefined ? [] : [edition, ...riders],
  );
}

const plansRemembered = 4;

/** The last plans of a lot as it stands: a view is new after every change, so none outlives what it was laid out from. */
const plans = new WeakMap<LotView, Map<string, Promise<LaidOut>>>();

/** A plan, and what it was laid out from: while it is linked another window may change either. */
interface LaidOut {
  readonly laid: PacketPlan;
  readonly practiceSha: string;
  readonly contents: Readonly<Record<EditionId, EditionContent>>;
}

/** A plan as long as nothing changes is laid out once: looked at, looked at again, then assembled. */
function planFor(wanted: Wanted, at: AtLot): Promise<LaidOut> {
  const view = at.lot.view();
  const known = plans.get(view) ?? new Map<string, Promise<LaidOut>>();
  plans.set(view, known);
  const key = JSON.stringify([at.day, wanted]);
  const before = known.get(key);
  if (before !== undefined) return before;
  const oldest = known.keys().next().value;
  if (oldest !== undefined && known.size >= plansRemembered) known.delete(oldest);
  const laid = layOut(wanted, at);
  known.set(key, laid);
  // What was refused is asked anew: the reason may be gone.
  laid.catch(() => known.delete(key));
  return laid;
}

/** Lays a packet out; nothing is written. Loaded on first need, for fonts cost time. */
async function layOut(wanted: Wanted, at: AtLot): Promise<LaidOut> {
  const [{ planPacket }, { loadFonts }] = await Promise.all([
    import('../../packet/plan/index.ts'),
    import('../../packet/sheets/fonts.ts'),
  ]);
  const practice = at.lot.practice();
  const practiceSha = at.lot.practiceSha();
  const view = at.lot.view();
  const purpose = purposeOf({ practice, view, wanted, at });
  const contents = at.lot.editionContent([...new Set(editionsIn(purpose))], 'without words');
  const override = wanted.override === undefined ? undefined : { reason: wanted.override, day: at.day };
  const laid = planPacket({ lot: view, practice, day: at.day, purpose, contents, override }, await loadFonts());
  return { laid, practiceSha, contents };
}

export const plan = onLot(requests.plan, async (wanted, at) => {
  const { laid } = await planFor(wanted, at);
  const tickets = renditionsIn(laid.files).map((sha): [string, string] => [sha, renditionTicket(sha, at)]);
  return { ...laid, files: laid.files.map(lightFile), tickets: Object.fromEntries(tickets) };
});

/** Only the owner's own sheet, written as in a packet. */
export const errandSheet = onLot(requests['errand-sheet'], async (wanted, at): Promise<SheetAnswer> => {
  const { laid } = await planFor(wanted, at);
  const [{ assemblePacket }, { loadFonts }] = await Promise.all([
    import('../../packet/assemble.ts'),
    import('../../packet/sheets/fonts.ts'),
  ]);
  const folder = at.lot.temporaryPath();
  await mkdir(folder);
  try {
    const sheet = { ...laid, files: laid.files.filter(({ sort }) => sort === 'errand sheet') };
    const [file] = await assemblePacket(sheet, {
      folder,
      fonts: await loadFonts(),
      renditionPath: (sha) => at.lot.renditionPath(sha),
      originalPath: (sha) => at.lot.originalPath(sha),
      originals: [],
      signal: at.signal,
    });
    if (file === undefined) throw new LotfileError('internal', 'No errand sheet was written.');
    const { path, name, pages } = file;
    return { ...(await offerMade({ path, name, key: `sheet ${JSON.stringify(wanted)}` }, at)), pages };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

/** The originals a packet rests on, each once; a missing or shortened file is told before anything is written. */
function originalsOf({ laid, contents }: Pick<LaidOut, 'laid' | 'contents'>, at: AtLot): readonly WholeFile[] {
  const titles = new Map(
    laid.tabs.flatMap(({ edition, riders = [], title }) =>
      edition === undefined ? [] : [edition, ...riders].map((id): [string, string] => [id, title]),
    ),
  );
  const inside = Object.entries(contents).filter(([edition]) => titles.has(edition));
  const originals = inside.flatMap(([edition, { originals: files }]) =>
    files.map(({ sha256, name }): [string, string] => [sha256, titles.get(edition) ?? name]),
  );
  const renditions = inside.flatMap(([, { pages }]) => pages.map(({ rendition }) => rendition));
  const [problem] = at.lot.checkFiles([...new Set([...renditions, ...originals.map(([sha256]) => sha256)])]);
  if (problem !== undefined) {
    throw new LotfileError('paper damaged', problem.say, { about: problem.papers.join(', '), next: problem.next });
  }
  return [...new Map(originals)].map(([sha256, title]) => ({ path: at.lot.originalPath(sha256), sha256, title }));
}

export const assemble = onLot(requests.assemble, async (wanted, at): Promise<AssembleAnswer> => {
  const { laid, practiceSha, contents } = await planFor(wanted, at);
  const originals = originalsOf({ laid, contents }, at);
  const [{ assemblePacket }, { loadFonts }] = await Promise.all([
    import('../../packet/assemble.ts'),
    import('../../packet/sheets/fonts.ts'),
  ]);
  const folder = at.lot.temporaryPath();
  await mkdir(folder);
  try {
    const files = await assemblePacket(laid, {
      folder,
      fonts: await loadFonts(),
      renditionPath: (sha) => at.lot.renditionPath(sha),
      originalPath: (sha) => at.lot.originalPath(sha),
      originals,
      signal: at.signal,
      onProgress: at.progress,
    });
    const { override } = laid;
    const kept = await at.lot.keepPacket({ plan: laid, practiceSha, override, files });
    return {
      act: String(kept.act),
      packet: kept.id,
      title: laid.title,
      draft: laid.draft,
      files: files.map(({ name, sort, pages, bytes, sha256 }) => ({
        name,
        sort,
        pages,
        bytes,
        sha256,
        ticket: at.tickets.steady(join(kept.folder, name), name),
      })),
      place: shownPlace(kept.folder, at),
      findings: laid.findings,
      notes: [...laid.notes, ...files.flatMap(({ name, notes }) => notes.map((note) => `${name}: ${note}`))],
      tabs: laid.tabs,
      wouldBeRefused: laid.findings.some(({ weight }) => weight === 'refused'),
    };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
