import { LotfileError } from '../../vocabulary/errors.ts';
import type { LinkPage } from '../link-order.ts';
import type { AnnotationCarry } from './annotations.ts';
import type { LinkNotes } from './link-notes.ts';
import { boxOf, type PageGeometry, turnOf, visibleBox } from './seen-frame.ts';
import type { PageUse, SourceCopy } from './source-copy.ts';
import type { StampedPage, StampInk } from './stamp-ink.ts';
import { damaged } from './syntax/damage.ts';
import {
  dict,
  emptyDict,
  FinishedRef,
  isArray,
  isDict,
  name,
  numberOf,
  PdfRef,
  type PdfValue,
} from './syntax/values.ts';

/** What a page keeps as it stands: boxes for printing, its blending group, measuring viewports of drawings. */
const kept = ['BleedBox', 'TrimBox', 'ArtBox', 'Group', 'UserUnit', 'VP'] as const;

export interface PageJob {
  readonly page: LinkPage;
  readonly use: PageUse;
  readonly parent: number;
  readonly source: SourceCopy;
  readonly annotations: AnnotationCarry;
}

/** Writes page dictionaries fresh; what they lead to is copied by their source. */
export class PageWriter {
  readonly #ink: StampInk | undefined;
  readonly #notes: LinkNotes;
  readonly #pageAt: (sheet: number) => FinishedRef;

  constructor(ink: StampInk | undefined, notes: LinkNotes, pageAt: (sheet: number) => FinishedRef) {
    this.#ink = ink;
    this.#notes = notes;
    this.#pageAt = pageAt;
  }

  write(job: PageJob): void {
    const { source, page, use } = job;
    const from = source.pages[page.page];
    if (from === undefined) throw damaged(source.file.title, `it has no page ${page.page + 1}`);
    const { own, inherited } = from;
    const entry = (key: string): PdfValue | undefined => own.get(key) ?? inherited.get(key);
    const geometry = geometryOf(source, entry);
    const stamped = this.#stamp(job, geometry, entry('Resources'));
    const made = new Map<string, PdfValue>(dict({ Type: name('Page'), Parent: new FinishedRef(job.parent) }));
    made.set('MediaBox', boxValue(source, entry('MediaBox')) ?? [0, 0, 612, 792]);
    const crop = boxValue(source, entry('CropBox'));
    if (crop !== undefined) made.set('CropBox', crop);
    const rotate = turnOf(geometry.rotate + page.turn);
    if (rotate !== 0) made.set('Rotate', rotate);
    for (const key of kept) {
      const value = own.get(key);
      if (value !== undefined && value !== null) made.set(key, value);
    }
    made.set('Resources', stamped?.resources ?? entry('Resources') ?? emptyDict);
    made.set('Contents', contentsOf(source, own.get('Contents'), stamped));
    const annots = [...job.annotations.carry(own.get('Annots'), use), ...this.#links(page, source, use)];
    if (annots.length > 0) made.set('Annots', annots);
    source.out.write(use.num, made, source.mapRef);
  }

  #stamp(job: PageJob, geometry: PageGeometry, resources: PdfValue | undefined): StampedPage | undefined {
    const { page, source, use } = job;
    if (page.stamp === undefined) return undefined;
    if (this.#ink === undefined) throw new LotfileError('internal', 'Stamps are ordered, but no face to set them in.');
    const laid = this.#ink.lay(page.stamp, page, { source, geometry, resources });
    if (laid === undefined) {
      this.#notes.say(`${source.file.title}: sheet ${use.sheet + 1} has no margin line, its clear strip is too small.`);
    }
    return laid;
  }

  /** Live places on a sheet we wrote. */
  #links(page: LinkPage, source: SourceCopy, use: PageUse): readonly FinishedRef[] {
    return page.links.map((link) =>
      source.out.add(
        dict({
          Type: name('Annot'),
          Subtype: name('Link'),
          Rect: [link.x, link.y, link.x + link.width, link.y + link.height],
          Border: [0, 0, 0],
          F: 4,
          P: new FinishedRef(use.num),
          Dest: [this.#pageAt(link.toSheet), name('Fit')],
        }),
      ),
    );
  }
}

type Entry = (key: string) => PdfValue | undefined;

function geometryOf(source: SourceCopy, entry: Entry): PageGeometry {
  const { file } = source;
  const unit = numberOf(file.resolve(entry('UserUnit'))) ?? 1;
  return {
    box: visibleBox(boxOf(file, entry('MediaBox')), boxOf(file, entry('CropBox'))),
    rotate: turnOf(numberOf(file.resolve(entry('Rotate'))) ?? 0),
    userUnit: unit > 0 ? unit : 1,
  };
}

/** Boxes are written out in the page: some readers don't follow references there. */
function boxValue(source: SourceCopy, value: PdfValue | undefined): PdfValue | undefined {
  const found = source.file.resolve(value);
  return isArray(found) ? found.map((side) => source.file.resolve(side)) : undefined;
}

/**
 * The page's streams, with the stamp's around them. References to nothing are left out. A single stream without a stamp
 * stays single: readers add a space to each stream of a list, which damaged content may not survive.
 */
function contentsOf(source: SourceCopy, value: PdfValue | undefined, stamped: StampedPage | undefined): PdfValue {
  const found = value instanceof PdfRef ? source.file.object(value) : { value: value ?? null };
  const list = isArray(found.value) ? found.value : [value ?? null];
  const own = list.filter((part) => part instanceof PdfRef && isDict(source.file.object(part).value));
  if (stamped !== undefined) return [stamped.before, ...own, stamped.after];
  return isArray(found.value) ? own : (own[0] ?? []);
}
