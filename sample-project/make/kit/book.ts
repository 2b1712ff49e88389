import { createHash } from 'node:crypto';
import { PDFDocument, PDFHexString, PDFName } from 'pdf-lib';
import { embedFace, type Face, type Faces } from './faces.ts';
import { Leaf } from './leaf.ts';

export interface BookLook {
  readonly title: string;
  /** The day the file says it was made. */
  readonly day: string;
  readonly faces: readonly Face[];
  readonly author?: string;
  readonly program?: string;
}

export const letter = [612, 792] as const;

/** One PDF being made. The same input gives the same bytes: fixed dates, no random id. */
export class Book {
  readonly doc: PDFDocument;
  readonly look: BookLook;
  readonly #faces: Partial<Faces>;
  readonly #leaves: Leaf[] = [];

  private constructor(doc: PDFDocument, look: BookLook, faces: Partial<Faces>) {
    this.doc = doc;
    this.look = look;
    this.#faces = faces;
  }

  static async open(look: BookLook): Promise<Book> {
    const doc = await PDFDocument.create({ updateMetadata: false });
    const made = new Date(`${look.day}T15:04:00Z`);
    doc.setTitle(look.title);
    doc.setCreationDate(made);
    doc.setModificationDate(made);
    if (look.author !== undefined) doc.setAuthor(look.author);
    doc.setProducer(look.program ?? 'Sample lot generator');
    const faces: Partial<Record<Face, Faces[Face]>> = {};
    for (const face of look.faces) faces[face] = await embedFace(doc, face);
    return new Book(doc, look, faces);
  }

  get faces(): Partial<Faces> {
    return this.#faces;
  }

  leaf(size: readonly [number, number] = letter): Leaf {
    const leaf = new Leaf(this.doc.addPage([size[0], size[1]]), this.#faces);
    this.#leaves.push(leaf);
    return leaf;
  }

  get leaves(): readonly Leaf[] {
    return this.#leaves;
  }

  async bytes(options: { readonly packed?: boolean } = {}): Promise<Uint8Array> {
    for (const leaf of this.#leaves) leaf.finish();
    const id = createHash('sha256').update(`${this.look.title}|${this.look.day}`).digest('hex').slice(0, 32);
    this.doc.context.trailerInfo.ID = this.doc.context.obj([PDFHexString.of(id), PDFHexString.of(id)]);
    return this.doc.save({
      useObjectStreams: options.packed ?? true,
      updateFieldAppearances: false,
      objectsPerTick: Number.POSITIVE_INFINITY,
    });
  }

  /** Sets a key of the catalogue. */
  catalogue(key: string, value: Parameters<PDFDocument['catalog']['set']>[1]): void {
    this.doc.catalog.set(PDFName.of(key), value);
  }
}
