import type { RequestAnswer } from '../../desk/door.ts';
import { counted, labelled, sizeInWords, wrapped } from './lines.ts';

/** The bundle, and what could not go along. */
export function bundleText({ name, bytes, files, sha256, notes }: RequestAnswer<'bundle'>): string {
  return [
    `${name}: the lot and ${counted(files, 'file')}, ${sizeInWords(bytes)}, all read back.`,
    `SHA-256 ${sha256}`,
    ...notes.flatMap((note) => wrapped(note, 2)),
    'It goes away when the lot is closed: with --out FOLDER you get a copy.',
  ].join('\n');
}

export function restoredText({ title, files, bytes, notes }: RequestAnswer<'restore'>): string {
  const whole = notes.length === 0 ? 'every byte is as it was kept' : `${counted(notes.length, 'thing')} to look at`;
  return [
    `Made the lot "${title}": ${counted(files, 'file')}, ${sizeInWords(bytes)}; ${whole}.`,
    ...notes.flatMap((note) => wrapped(note, 2)),
  ].join('\n');
}

/** What came over, and what waits for a choice, side by side. */
export function mergeText({ act, title, taken, conflicts, notes }: RequestAnswer<'merge'>): string {
  const open = conflicts.filter(({ chosen }) => chosen === undefined);
  const came = taken.length === 0 ? 'nothing new' : taken.join(', ');
  const done =
    act === undefined
      ? `From the bundle of "${title}" would come over: ${came}. Nothing was changed.`
      : `Taken over from the bundle of "${title}": ${came}. Undo takes it back.`;
  return [
    done,
    ...conflicts.flatMap(({ key, what, mine, theirs, chosen }) => [
      '',
      `${what}${chosen === undefined ? '' : ` (${chosen})`}`,
      ...labelled('mine:  ', mine, 2),
      ...labelled('theirs:', theirs, 2),
      ...(chosen === undefined ? [`  choose: --choice "${key}=mine" or --choice "${key}=theirs"`] : []),
    ]),
    ...(open.length === 0
      ? []
      : ['', `${counted(open.length, 'row')} changed on both sides: choose for each, or --all mine, --all theirs.`]),
    ...notes.flatMap((note) => wrapped(note, 0)),
  ].join('\n');
}

export function houseRecordText(answer: RequestAnswer<'house-record'>): string {
  const { place, papers, files, bytes, leftOut, notes } = answer;
  return [
    `House record in ${place}: ${counted(papers, 'paper')}, ${counted(files, 'file')}, ${sizeInWords(bytes)}. Open index.html.`,
    ...leftOut.map(({ title, why }) => `  left out: ${title} (${why})`),
    ...notes.flatMap((note) => wrapped(note, 0)),
  ].join('\n');
}
