import { LotfileError } from '../../vocabulary/errors.ts';
import type { LinkOrder, LinkResult } from '../link-order.ts';
import { AnnotationCarry } from './annotations.ts';
import { checkOrder } from './check-order.ts';
import { Destinations } from './destinations.ts';
import { writeCatalog } from './document-parts.ts';
import { FinishedFile, type Unnamed } from './finished-file.ts';
import { DefaultFonts } from './form-fonts.ts';
import { FormCarry } from './forms.ts';
import { LinkNotes } from './link-notes.ts';
import { type OpenSource, Sources } from './open-sources.ts';
import { type LinkControl, Pace } from './pace.ts';
import { writePageTree } from './page-tree.ts';
import { type PageJob, PageWriter } from './page-writer.ts';
import { type PageUse, SourceCopy } from './source-copy.ts';
import { StampInk } from './stamp-ink.ts';
import { FinishedRef, PdfRef } from './syntax/values.ts';

/** One source with everything that carries its parts over. */
interface Carried {
  readonly source: SourceCopy;
  readonly forms: FormCarry;
  readonly annotations: AnnotationCarry;
}

/** A whole packet before it gets its name, and the kept papers it was made from, still open. */
export interface InTheMaking extends Unnamed {
  readonly sources: readonly OpenSource[];
}

export interface LinkPacketControl extends LinkControl {
  /** Looks at the packet while it is being forced to disk: nothing that fails this look ever gets the name asked for. */
  readonly check?: ((made: InTheMaking) => Promise<unknown>) | undefined;
}

/**
 * Links kept pages and written sheets into one finished file: objects are renumbered, stream bytes copied as they
 * stand. The same order gives the same bytes. The file appears under its name only when it is whole and on disk.
 * @throws LotfileError `paper damaged` when a source isn't the bytes that were kept, `stopped`, `disk`,
 * `internal` when the order contradicts itself. Nothing is left behind then.
 */
export async function linkPacket(
  order: LinkOrder,
  outputPath: string,
  control: LinkPacketControl = {},
): Promise<LinkResult> {
  checkOrder(order);
  const pace = new Pace(control);
  pace.check();
  const sources = new Sources(order.sources);
  try {
    const opened = sources.open();
    const out = new FinishedFile(
      outputPath,
      order.sources.map(({ sha256 }) => sha256),
    );
    try {
      const parts = await new PacketLink(order, out, pace).run(opened);
      // A changed paper is the better reason, where the look at what was made of it fails too.
      const look = async (made: Unnamed): Promise<void> => {
        const [seen, proved] = await Promise.allSettled([
          control.check?.({ ...made, sources: opened }),
          sources.proved(),
        ]);
        if (proved.status === 'rejected') throw proved.reason;
        if (seen.status === 'rejected') throw seen.reason;
        pace.check();
      };
      const done = await out.commit(parts.catalog, parts.info, look);
      return { ...done, pages: order.pages.length, notes: parts.notes };
    } catch (error) {
      await out.abandon();
      throw error;
    }
  } catch (error) {
    throw await sources.reason(error);
  } finally {
    await sources.close();
  }
}

/** What the trailer and the caller need once everything else is written. */
interface Written {
  readonly catalog: FinishedRef;
  readonly info: FinishedRef;
  readonly notes: readonly string[];
}

class PacketLink {
  readonly #order: LinkOrder;
  readonly #out: FinishedFile;
  readonly #pace: Pace;
  readonly #notes = new LinkNotes();
  readonly #fonts = new DefaultFonts();

  constructor(order: LinkOrder, out: FinishedFile, pace: Pace) {
    this.#order = order;
    this.#out = out;
    this.#pace = pace;
  }

  async run(opened: readonly OpenSource[]): Promise<Written> {
    const out = this.#out;
    const catalog = new FinishedRef(out.reserve());
    const pages = this.#order.pages.map(() => out.reserve());
    const tree = writePageTree(out, pages);
    const carried = new Map(opened.map((one) => [one.id, this.#carry(one)]));
    const jobs = this.#jobs(carried, pages, tree.parents);
    await this.#writePages(jobs, this.#writer(carried, pages));
    const info = writeCatalog(catalog, {
      out,
      order: this.#order,
      pages: tree.root,
      pageAt: (sheet) => pageAt(pages, sheet),
      sources: [...carried.values()],
      fonts: this.#fonts,
    });
    for (const { source } of carried.values()) source.drain();
    return { catalog, info, notes: this.#notes.all() };
  }

  #carry(opened: OpenSource): Carried {
    const source = new SourceCopy(opened, this.#out);
    const destinations = new Destinations(source, this.#notes);
    const forms = new FormCarry(source, this.#fonts, this.#notes);
    const annotations = new AnnotationCarry({ source, destinations, forms, notes: this.#notes });
    return { source, forms, annotations };
  }

  /** Every use of every page is known before the first object is copied: links need all targets. */
  #jobs(carried: ReadonlyMap<string, Carried>, nums: readonly number[], parents: readonly number[]): PageJob[] {
    return this.#order.pages.map((page, sheet) => {
      const from = carried.get(page.source);
      const num = nums[sheet];
      const parent = parents[sheet];
      if (from === undefined || num === undefined || parent === undefined) {
        throw new LotfileError('internal', `Sheet ${sheet + 1} of the packet has no source.`);
      }
      const use: PageUse = from.source.use(page.page, sheet, num);
      return { page, use, parent, source: from.source, annotations: from.annotations };
    });
  }

  #writer(carried: ReadonlyMap<string, Carried>, pages: readonly number[]): PageWriter {
    const at = (sheet: number): FinishedRef => pageAt(pages, sheet);
    const face = this.#order.stampFace;
    if (face === undefined) return new PageWriter(undefined, this.#notes, at);
    const source = carried.get(face.source)?.source;
    const gen = source?.file.table.gens[face.object];
    const font = source === undefined || gen === undefined ? 0 : source.mapRef(new PdfRef(face.object, gen));
    if (font === 0) throw new LotfileError('internal', 'The face for stamps does not stand in the source named.');
    return new PageWriter(new StampInk(this.#out, face, new FinishedRef(font)), this.#notes, at);
  }

  async #writePages(jobs: readonly PageJob[], writer: PageWriter): Promise<void> {
    for (const [sheet, job] of jobs.entries()) {
      writer.write(job);
      job.source.drain();
      await this.#pace.step('Linking pages', { done: sheet + 1, of: jobs.length, bytes: this.#out.length });
    }
  }
}

function pageAt(pages: readonly number[], sheet: number): FinishedRef {
  const num = pages[sheet];
  if (num === undefined) throw new LotfileError('internal', `There is no sheet ${sheet + 1} in the packet.`);
  return new FinishedRef(num);
}
