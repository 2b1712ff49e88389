import { PDFDict, type PDFDocument, PDFHexString, PDFName, PDFNumber } from 'pdf-lib';
import type { BlankField, FieldWrite } from '../form-model.ts';
import { choiceOptions, fieldFacts, hasFlag, onState, placeOf, sortOf } from './field-facts.ts';
import { dictAt, type FieldNode, isTrue, textOf, type Widget } from './form-tree.ts';
import { listLook, type Pen, setLook, stateLooks, textLook } from './looks.ts';

/** A document being filled. */
export interface Filling {
  readonly document: PDFDocument;
  readonly form: PDFDict;
  readonly pen: Pen;
}

const key = (name: string): PDFName => PDFName.of(name);

function daOf(node: FieldNode, { form }: Filling): string {
  return textOf(node.inherited('DA')) ?? textOf(form.lookup(key('DA'))) ?? '';
}

function factsOf(node: FieldNode, filling: Filling): BlankField | undefined {
  return fieldFacts(node, { pages: filling.document.getPages(), look: daOf(node, filling) });
}

/** Draws the value of a text or choice field at each of its places; false where one of them can't show it. */
function draw(node: FieldNode, text: string, filling: Filling): boolean {
  const field = factsOf(node, filling);
  if (field === undefined) return false;
  const list = field.sort === 'choice' && !hasFlag(node, 'combo');
  const ink = { look: daOf(node, filling), pen: filling.pen };
  for (const widget of node.widgets) {
    const place = placeOf(widget, filling.document.getPages());
    if (place === undefined) continue;
    const chosen = field.options.findIndex(({ label }) => label === text);
    const made =
      list && chosen >= 0
        ? listLook(chosen, { widget: widget.dict, field }, ink)
        : textLook(text, { widget: widget.dict, field, place }, ink);
    if (made === undefined) return false;
    setLook(widget.dict, made, filling.document.context);
  }
  return true;
}

/** The value stands on the field itself; a copy further down the tree would hide it. */
function setValue({ dict, widgets }: FieldNode, value: PDFHexString | PDFName): void {
  dict.set(key('V'), value);
  for (const widget of widgets) if (widget.dict !== dict) widget.dict.delete(key('V'));
  dict.delete(key('RV'));
}

function giveStates(widget: Widget, node: FieldNode, { pen, document }: Filling): void {
  if (dictAt(dictAt(widget.dict, 'AP'), 'N') !== undefined) return;
  const { on, off } = stateLooks(widget.dict, hasFlag(node, 'radio'), pen);
  const looks = document.context.obj({ Off: off });
  if (looks instanceof PDFDict) looks.set(key(onState(widget, node)), on);
  setLook(widget.dict, looks, document.context);
}

function writeState(node: FieldNode, state: string, filling: Filling): void {
  for (const widget of node.widgets) {
    giveStates(widget, node, filling);
    widget.dict.set(key('AS'), key(onState(widget, node) === state ? state : 'Off'));
  }
  setValue(node, key(state));
}

function writeChoice(node: FieldNode, write: Extract<FieldWrite, { write: 'choice' }>): void {
  setValue(node, PDFHexString.fromText(write.value));
  const index = choiceOptions(node).findIndex(({ value }) => value === write.value);
  if (index >= 0 && !hasFlag(node, 'combo')) node.dict.set(key('I'), node.dict.context.obj([PDFNumber.of(index)]));
  else node.dict.delete(key('I'));
}

/** Writes one value into one field dictionary; false where it can't be shown. Signatures are never touched. */
export function writeField(node: FieldNode, write: FieldWrite, filling: Filling): boolean {
  const sort = sortOf(node);
  if (sort === undefined || sort === 'signature' || sort === 'button') return false;
  switch (write.write) {
    case 'state':
      if (sort !== 'radio' && sort !== 'tick box') return false;
      writeState(node, write.state, filling);
      return true;
    case 'choice':
      if (sort !== 'choice' || !draw(node, write.text, filling)) return false;
      writeChoice(node, write);
      return true;
    case 'text':
      if (sort !== 'text' || !draw(node, write.text, filling)) return false;
      setValue(node, PDFHexString.fromText(write.text));
      return true;
  }
}

/** A form that leaves the looks of its values to the reader: those it came with are drawn, so that nothing vanishes. */
export function drawLooksLeftOpen(nodes: readonly FieldNode[], filling: Filling): void {
  if (!isTrue(filling.form.lookup(key('NeedAppearances')))) return;
  for (const node of nodes) {
    const sort = sortOf(node);
    const value = textOf(node.inherited('V'));
    if ((sort !== 'text' && sort !== 'choice') || value === undefined || value === '') continue;
    const bare = node.widgets.some(({ dict }) => dictAt(dict, 'AP')?.lookup(key('N')) === undefined);
    const shown = choiceOptions(node).find((option) => option.value === value)?.label ?? value;
    if (bare && filling.pen.metrics.missing(shown.replace(/\s/g, ''), 'text').length === 0) draw(node, shown, filling);
  }
}
