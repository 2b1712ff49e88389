import { PDFDict, type PDFDocument, PDFName, type PDFPage, PDFRef, PDFStream } from 'pdf-lib';
import { rectOf } from './field-facts.ts';
import { arrayAt, dictAt, numberOf, textOf } from './form-tree.ts';

/** Flags of an annotation that keep it off the page (ISO 32000-1, table 165): hidden, no view. */
const unseen = (1 << 1) | (1 << 5);

type Matrix = readonly [number, number, number, number, number, number];

function numbersOf(dict: PDFDict, key: string): readonly number[] | undefined {
  const list = arrayAt(dict, key);
  if (list === undefined) return undefined;
  const numbers = Array.from({ length: list.size() }, (_, n) => numberOf(list.lookup(n)) ?? 0);
  return numbers;
}

function applied([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] {
  return [a * x + c * y + e, b * x + d * y + f];
}

/** What takes a look's transformed box onto the annotation's rectangle (ISO 32000-1, 12.5.5, algorithm 8.1). */
function placing(look: PDFDict, widget: PDFDict): Matrix | undefined {
  const rect = rectOf(widget);
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = numbersOf(look, 'BBox') ?? [];
  const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = numbersOf(look, 'Matrix') ?? [];
  const matrix: Matrix = [a, b, c, d, e, f];
  const corners = [applied(matrix, x0, y0), applied(matrix, x1, y0), applied(matrix, x0, y1), applied(matrix, x1, y1)];
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const box = {
    x: Math.min(...xs),
    y: Math.min(...ys),
    width: Math.max(...xs) - Math.min(...xs),
    height: Math.max(...ys) - Math.min(...ys),
  };
  if (rect === undefined || box.width <= 0 || box.height <= 0) return undefined;
  const [sx, sy] = [rect.width / box.width, rect.height / box.height];
  return [sx, 0, 0, sy, rect.x - box.x * sx, rect.y - box.y * sy];
}

/** The stream a widget shows: of several states the one it is in. */
function lookOf(widget: PDFDict): { readonly ref: PDFRef; readonly dict: PDFDict } | undefined {
  const normal = dictAt(widget, 'AP')?.get(PDFName.of('N'));
  const direct = widget.context.lookup(normal);
  const state = textOf(widget.lookup(PDFName.of('AS'))) ?? 'Off';
  const found = direct instanceof PDFDict ? direct.get(PDFName.of(state)) : normal;
  const stream = widget.context.lookup(found);
  if (!(found instanceof PDFRef) || !(stream instanceof PDFStream)) return undefined;
  return { ref: found, dict: stream.dict };
}

function drawn(widget: PDFDict, page: PDFPage): string {
  const flags = numberOf(widget.lookup(PDFName.of('F'))) ?? 0;
  const look = (flags & unseen) === 0 ? lookOf(widget) : undefined;
  const matrix = look === undefined ? undefined : placing(look.dict, widget);
  if (look === undefined || matrix === undefined) return '';
  const name = page.node.newXObjectKey('Box');
  page.node.setXObject(name, look.ref);
  return `q ${matrix.map((number) => Number(number.toFixed(5))).join(' ')} cm ${name.toString()} Do Q\n`;
}

function flattenPage(page: PDFPage): void {
  const annotations = page.node.Annots();
  if (annotations === undefined) return;
  const { context } = page.doc;
  const kept = context.obj([]);
  let content = '';
  for (let n = 0; n < annotations.size(); n += 1) {
    const item = annotations.get(n);
    const dict = context.lookup(item);
    if (dict instanceof PDFDict && dict.lookup(PDFName.of('Subtype')) === PDFName.of('Widget'))
      content += drawn(dict, page);
    else kept.push(item);
  }
  if (content !== '') {
    const stream = (text: string): PDFRef => context.register(context.flateStream(text));
    page.node.wrapContentStreams(stream('q\n'), stream('Q\n'));
    page.node.addContentStream(stream(content));
  }
  if (kept.size() === 0) page.node.delete(PDFName.of('Annots'));
  else page.node.set(PDFName.of('Annots'), kept);
}

/** Makes every box part of its page, as it shows, and takes the form away. Links and notes stay. */
export function flattenForm(document: PDFDocument): void {
  for (const page of document.getPages()) flattenPage(page);
  document.catalog.delete(PDFName.of('AcroForm'));
}
