import type { SeenRect } from '../../vocabulary/lot.ts';
import type { LinkPage, StampFace } from '../link-order.ts';
import type { PlanStamp } from '../plan-model.ts';
import type { FinishedFile } from './finished-file.ts';
import { type PageGeometry, seenSize, seenToPage, turnOf, turnRect } from './seen-frame.ts';
import type { SourceCopy } from './source-copy.ts';
import { drawStamp } from './stamp-drawing.ts';
import { emptyDict, type FinishedRef, isDict, type PdfDict, PdfRef, type PdfValue } from './syntax/values.ts';

export interface StampedPage {
  readonly before: FinishedRef;
  readonly after: FinishedRef;
  readonly resources: PdfValue;
}

interface Prepared {
  readonly resources: PdfValue;
  readonly font: string;
}

/** Lays stamps over pages: the page's own streams stay as they are, one stream before and one after enclose them. */
export class StampInk {
  readonly #out: FinishedFile;
  readonly #face: StampFace;
  readonly #font: FinishedRef;
  readonly #befores = new Map<number, FinishedRef>();
  /** Shared resources are prepared once, not once per page. */
  readonly #prepared = new Map<SourceCopy, Map<number, Prepared>>();

  constructor(out: FinishedFile, face: StampFace, font: FinishedRef) {
    this.#out = out;
    this.#face = face;
    this.#font = font;
  }

  /**
   * @param geometry of the page as kept, before the order's extra turn: the strip was measured there.
   * @returns undefined when the line doesn't fit.
   */
  lay(
    stamp: PlanStamp,
    page: LinkPage,
    on: { readonly source: SourceCopy; readonly geometry: PageGeometry; readonly resources: PdfValue | undefined },
  ): StampedPage | undefined {
    const { font, resources } = this.#prepare(on.source, on.resources);
    const strip: SeenRect = turnRect(stamp.strip, seenSize(on.geometry), page.turn);
    const turned = { ...on.geometry, rotate: turnOf(on.geometry.rotate + page.turn) };
    const drawing = drawStamp(stamp, this.#face, { strip, toPage: seenToPage(turned), font });
    if (drawing === undefined) return undefined;
    const closing = 'Q\n'.repeat(Math.max(0, page.openSaves) + 1);
    const after = this.#out.addStream(emptyDict, `\n${closing}${drawing}`);
    return { before: this.#before(Math.max(0, page.extraRestores) + 1), after, resources };
  }

  #before(saves: number): FinishedRef {
    const known = this.#befores.get(saves);
    if (known !== undefined) return known;
    const made = this.#out.addStream(emptyDict, 'q\n'.repeat(saves));
    this.#befores.set(saves, made);
    return made;
  }

  /** The page's resources with the stamp's font among them, under a name nobody uses. */
  #prepare(source: SourceCopy, value: PdfValue | undefined): Prepared {
    if (!(value instanceof PdfRef)) return this.#withFont(source, isDict(value) ? value : emptyDict);
    const known = this.#prepared.get(source) ?? new Map<number, Prepared>();
    this.#prepared.set(source, known);
    const shared = known.get(value.num);
    if (shared !== undefined) return shared;
    const { resources, font } = this.#withFont(source, source.dictOf(value) ?? emptyDict);
    const made = { resources: this.#out.add(resources, source.mapRef), font };
    known.set(value.num, made);
    return made;
  }

  #withFont(source: SourceCopy, resources: PdfDict): Prepared {
    const fonts = source.dictOf(resources.get('Font')) ?? emptyDict;
    let font = 'LotfileStamp';
    for (let n = 2; fonts.has(font); n += 1) font = `LotfileStamp${n}`;
    return { resources: new Map([...resources, ['Font', new Map([...fonts, [font, this.#font]])]]), font };
  }
}
