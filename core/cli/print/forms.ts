import type { RequestAnswer } from '../../desk/door.ts';
import { changeInWords } from '../../vocabulary/forms.ts';
import { counted, sizeInWords, table, wrapped } from './lines.ts';

type Form = RequestAnswer<'form-fields'>;
type Box = Form['boxes'][number];

/** How a box stands, before its line. */
const signs: Readonly<Record<Box['state'], string>> = {
  filled: '  filled',
  empty: '  empty',
  missing: '! missing',
  'too long': '! too long',
  'not among the choices': '! no such choice',
  'wrong sort': '! wrong sort',
  'no such letters': '! no such letters',
  'by hand': '  by hand',
  left: '  left',
  unmapped: '? unmapped',
  'not on the form': '! not on the form',
};

function boxLines({ boxes }: Form): readonly string[] {
  const told = boxes.filter(({ state }) => state !== 'filled' && state !== 'by hand' && state !== 'left');
  return [
    ...table(boxes.map(({ state, title, value = '', from = '' }) => [signs[state], title, value, from])),
    '',
    ...told.flatMap(({ title, field, state, say, offered }) => {
      const offer = offered.length === 0 ? '' : ` It may ask for: ${offered.join(', ')}.`;
      if (state === 'unmapped') return wrapped(`${title} (${field}): nobody has said what goes here.${offer}`, 2);
      return say === undefined ? [] : wrapped(`${title}: ${say}`, 2);
    }),
  ];
}

function blankLines({ blank, candidates, mapped, form, errand }: Form): readonly string[] {
  if (blank !== undefined) {
    const how = blank.how === 'another issue' ? ', another issue of it: look at every box' : '';
    return [`Blank: ${blank.title} (${counted(blank.boxes, 'box', 'boxes')})${how}.`];
  }
  const named = candidates.map(
    ({ title, edition, boxes }) => `  ${title} (${counted(boxes, 'box', 'boxes')}): ${edition}`,
  );
  return [
    mapped
      ? 'Its blank is not in the lot: keep the office’s own fillable PDF.'
      : `Nobody has said yet what goes into "${form}".`,
    ...(named.length === 0 ? [] : [`Kept papers with boxes (form-fields ${errand} --blank ...):`, ...named]),
  ];
}

/** An errand's form, box by box. */
export function formText(form: Form): string {
  const { title, counts, filled, notes, flatten, caution } = form;
  const changed = (filled?.outOfDate ?? []).map((one) => `  ${one.title}: ${changeInWords(one)}.`);
  return [
    title,
    ...blankLines(form),
    ...(form.boxes.length === 0 ? [] : ['', ...boxLines(form)]),
    `${counted(counts.filled, 'box', 'boxes')} filled, ${counts.troubled} to look at, ${counts.unmapped} unmapped, ${counts.byHand} for your own hand; ${flatten ? 'the values become part of the page' : 'the copy stays fillable'}.`,
    ...(changed.length === 0 ? [] : ['The filled copy is out of date:', ...changed]),
    ...notes.flatMap((note) => wrapped(note, 0)),
    ...wrapped(caution, 0),
  ].join('\n');
}

export function filledText(answer: RequestAnswer<'fill-form'>): string {
  const { title, boxes, edition, already, left, notes, name, bytes } = answer;
  const where = edition === undefined ? `${name}, ${sizeInWords(bytes)}` : edition;
  return [
    `${title}: ${counted(boxes, 'box', 'boxes')}${already ? ' (already in the lot)' : ''}. ${where}`,
    ...left.flatMap((say) => wrapped(`Still open. ${say}`, 2)),
    ...notes.flatMap((note) => wrapped(note, 2)),
    'Read it through, print it, sign it; then keep the signed one.',
  ].join('\n');
}
