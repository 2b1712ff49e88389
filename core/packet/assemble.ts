import { createHash } from 'node:crypto';
import { copyFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Drawing } from '../typeset/drawing.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { fileHash } from './file-hash.ts';
import { linkPacket, warmAside } from './link/index.ts';
import type { LinkOrder, LinkPage, LinkSource, StampFace } from './link-order.ts';
import type { PacketPlan, PlanFile, PlanSheet } from './plan-model.ts';
import { proveWhole, type WholeFile } from './prove-whole.ts';
import { readBackUnnamed, warmReadBack } from './read-back/index.ts';
import { drawSheets } from './sheets/draw-sheets.ts';
import type { Fonts } from './sheets/fonts.ts';

/** A finished file, proved by reading it back; its bytes are `sha256`. */
export interface AssembledFile {
  readonly name: string;
  readonly sort: PlanFile['sort'];
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly pages: number;
  readonly notes: readonly string[];
}

export interface AssembleTools {
  /** An empty folder to write into; the caller moves or removes it. */
  readonly folder: string;
  readonly fonts: Fonts;
  readonly renditionPath: (sha256: string) => string;
  readonly originalPath: (sha256: string) => string;
  /** Originals of the papers inside: checked meanwhile, so that no packet rests on a changed one. */
  readonly originals: readonly WholeFile[];
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?:
    | ((at: { readonly what: string; readonly done: number; readonly of: number }) => void)
    | undefined;
}

type Assembled = Extract<PlanFile, { of: 'assembled' }>;
type Untouched = Extract<PlanFile, { of: 'untouched' }>;

const writtenSource = 'written sheets';

/** All sheets the program writes for a plan, in one PDF of their own: fonts are read and subset once. */
interface Written {
  readonly source: LinkSource;
  readonly stampFace: StampFace;
  /** The page in it where the sheets of each file begin. */
  readonly first: ReadonlyMap<PlanFile, number>;
}

function drawingsOf(file: PlanFile): readonly Drawing[] {
  if (file.of === 'untouched') return [];
  return file.sheets.flatMap((sheet) => (sheet.of === 'written' ? [sheet.drawing] : []));
}

async function drawWritten({ plan, tools }: Job): Promise<Written> {
  const first = new Map<PlanFile, number>();
  const drawings: Drawing[] = [];
  for (const file of plan.files) {
    first.set(file, drawings.length);
    drawings.push(...drawingsOf(file));
  }
  const drawn = await drawSheets(drawings, tools.fonts);
  const path = join(tools.folder, '.written.pdf');
  await writeFile(path, drawn.bytes);
  const sha256 = createHash('sha256').update(drawn.bytes).digest('hex');
  return {
    source: { id: writtenSource, path, sha256, title: 'the sheets Lotfile writes' },
    stampFace: { ...drawn.stampFace, source: writtenSource },
    first,
  };
}

function linkPages(sheets: readonly PlanSheet[], firstWritten: number): readonly LinkPage[] {
  let written = firstWritten;
  return sheets.map((sheet): LinkPage => {
    if (sheet.of === 'written') {
      const page = written;
      written += 1;
      const links = sheet.drawing.links;
      return { source: writtenSource, page, turn: 0, openSaves: 0, extraRestores: 0, links };
    }
    const { rendition, facts, turn } = sheet.page;
    return {
      source: rendition,
      page: facts.page,
      turn,
      stamp: 'strip' in sheet.stamp ? sheet.stamp : undefined,
      openSaves: facts.openSaves,
      extraRestores: facts.extraRestores,
      links: [],
    };
  });
}

function sourcesOf(file: Assembled, written: LinkSource | undefined, tools: AssembleTools): readonly LinkSource[] {
  const papers = new Map<string, LinkSource>();
  for (const sheet of file.sheets) {
    if (sheet.of === 'written' || papers.has(sheet.page.rendition)) continue;
    const sha256 = sheet.page.rendition;
    papers.set(sha256, { id: sha256, path: tools.renditionPath(sha256), sha256, title: sheet.title });
  }
  return written === undefined ? [...papers.values()] : [written, ...papers.values()];
}

/** Written sheets and stamps come from the one PDF; a file without either doesn't carry its fonts. */
function needsWritten(file: Assembled): boolean {
  return file.sheets.some((sheet) => sheet.of === 'written' || 'strip' in sheet.stamp);
}

async function assembleOne(file: Assembled, written: Written, { plan, tools }: Job): Promise<AssembledFile> {
  const used = needsWritten(file) ? written : undefined;
  const order: LinkOrder = {
    title: file.title,
    subject: `${plan.code} · ${plan.recipient}`,
    language: 'en-US',
    sources: sourcesOf(file, used?.source, tools),
    pages: linkPages(file.sheets, written.first.get(file) ?? 0),
    bookmarks: file.bookmarks,
    labels: file.labels,
    stampFace: used?.stampFace,
  };
  const path = join(tools.folder, file.name);
  const control = {
    ...(tools.signal === undefined ? {} : { signal: tools.signal }),
    ...(tools.onProgress === undefined ? {} : { onProgress: tools.onProgress }),
  };
  const linked = await linkPacket(order, path, {
    ...control,
    check: (made) => readBackUnnamed(order, made, control),
  });
  const { sha256, bytes, pages, notes } = linked;
  return { name: file.name, sort: file.sort, path, sha256, bytes, pages, notes };
}

/** A file that goes as it came: copied, then hashed where it lies now. */
async function copyUntouched(file: Untouched, tools: AssembleTools): Promise<AssembledFile> {
  const path = join(tools.folder, file.name);
  await copyFile(tools.originalPath(file.file.sha256), path);
  const sha256 = await fileHash(path, tools.signal);
  if (sha256 !== file.file.sha256) {
    throw new LotfileError('paper damaged', `The kept file of "${file.title}" is no longer what was kept.`, {
      about: file.file.name,
      next: 'Run verify, then keep the paper again from where you got it.',
    });
  }
  const { size } = await stat(path);
  return { name: file.name, sort: file.sort, path, sha256, bytes: size, pages: 0, notes: [] };
}

interface Job {
  readonly plan: PacketPlan;
  readonly tools: AssembleTools;
}

/**
 * Writes every file of a plan into `tools.folder` and reads each back.
 * @throws LotfileError `paper damaged` where a kept byte changed, `stopped`, `disk`; the caller removes the folder.
 */
export async function assemblePacket(plan: PacketPlan, tools: AssembleTools): Promise<readonly AssembledFile[]> {
  // The reader and the writing thread start while the first sheets are drawn.
  warmReadBack();
  warmAside();
  const originals = proveWhole(tools.originals, tools.folder);
  try {
    const job = { plan, tools };
    const written = await drawWritten(job);
    const done: AssembledFile[] = [];
    for (const [at, file] of plan.files.entries()) {
      tools.signal?.throwIfAborted();
      tools.onProgress?.({ what: file.name, done: at, of: plan.files.length });
      done.push(file.of === 'untouched' ? await copyUntouched(file, tools) : await assembleOne(file, written, job));
    }
    await originals.proved();
    return done;
  } finally {
    await originals.close();
  }
}
