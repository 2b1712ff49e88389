import { type Asked, errandState } from '../../readiness/index.ts';
import type { FormBox } from '../../vocabulary/forms.ts';
import type { LotView } from '../../vocabulary/lot.ts';
import type { Errand, KindId, Practice } from '../../vocabulary/practice.ts';
import { editionIn } from '../named.ts';

/** The box can't be written without the number of a paper of this kind. */
function writesNumber(kind: KindId, box: FormBox): boolean {
  return (
    box.do === 'write' &&
    !box.optional &&
    box.sources.some((source) => source.of === 'paper' && source.kind === kind && source.fact === 'number')
  );
}

/** Titles of forms with a box for the number of a paper of this kind, each with the errands that take it along. */
function formsWith(kind: KindId, { forms = {}, errands }: Practice): readonly [string, readonly Errand[]][] {
  return Object.values(forms)
    .filter(({ boxes, rows }) => [...boxes, ...rows.flatMap((row) => row.boxes)].some((box) => writesNumber(kind, box)))
    .map(({ id, title }) => [
      title,
      Object.values(errands).filter(({ needs }) => needs.some(({ fill }) => fill === `forms/${id}` || fill === id)),
    ]);
}

function errandsThatAsk(kind: KindId, { errands }: Practice): readonly [string, readonly Errand[]][] {
  return Object.values(errands)
    .filter(({ needs }) => needs.some(({ kinds, facts }) => kinds.includes(kind) && facts.includes('number')))
    .map((errand) => [errand.title, [errand]]);
}

function agreementsOn(kind: KindId, { agreements }: Practice): readonly string[] {
  return Object.values(agreements)
    .filter(({ terms }) => terms.some((term) => term.of === 'paper' && term.kind === kind && term.fact === 'number'))
    .map(({ say }) => say);
}

/** Somebody still goes on it, as far as is known. */
function isAhead({ id }: Errand, asked: Asked): boolean {
  const state = errandState(id, asked);
  return state !== 'settled' && state !== "doesn't apply";
}

/**
 * What the number of an edition that bears none will be missed for, by the rules on file: titles of forms and errands
 * that are still ahead, sentences of agreements. Empty where nothing asks for a number of its kind.
 */
export function missedWithoutNumber(
  id: string,
  kind: KindId,
  asked: Asked & { readonly lot: LotView },
): readonly string[] {
  if (editionIn(asked.lot, id)?.number !== undefined) return [];
  const askers = [...formsWith(kind, asked.practice), ...errandsThatAsk(kind, asked.practice)]
    .filter(([, errands]) => errands.some((errand) => isAhead(errand, asked)))
    .map(([title]) => title);
  return [...new Set([...askers, ...agreementsOn(kind, asked.practice)])];
}
