import type { FigureRow } from '../../desk/door.ts';
import { labelled, wrapped } from './lines.ts';

function agreeWords({ agrees }: FigureRow['printed'][number], otherWay: string | undefined): string {
  if (agrees === undefined) return '';
  if (agrees) return ': agrees';
  return otherWay === undefined ? ': differs, look at both again' : `: agrees the other usual way, ${otherWay}`;
}

/** Sums done again with what stands on papers; each with its caution. */
export function figureLines(rows: readonly FigureRow[]): readonly string[] {
  return rows.flatMap(({ title, words, printed, parts, rules, source, caution, otherWay }) => [
    ...labelled(`  ${title}:`, words ?? 'a number is missing', 0),
    ...printed.flatMap((one) => wrapped(`${one.from} ${one.words}${agreeWords(one, otherWay)}.`, 4)),
    ...parts.flatMap((part) =>
      wrapped(`${part.title}: ${part.words ?? 'not noted'}${part.unusual ? ' (unusual: look again)' : ''}`, 4),
    ),
    ...rules.filter(({ holds }) => holds !== true).flatMap((rule) => wrapped(rule.words, 4)),
    ...wrapped(`${source}. ${caution}`, 4),
  ]);
}
