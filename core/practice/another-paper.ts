import { stringify } from 'yaml';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Errand, ErrandId, KindId, NeedUse, OfficeId, Practice } from '../vocabulary/practice.ts';
import { writtenUnder } from './read-practice.ts';
import type { Layer } from './yaml-tree.ts';

/** "They want another paper too": one more need of an errand, on whose word and when. */
export interface AnotherPaper {
  readonly errand: ErrandId;
  /** A kind that practice knows, or the title of one nobody wrote down so far and the office that gives it out. */
  readonly paper: KindId | { readonly title: string; readonly from?: OfficeId | undefined };
  readonly use?: NeedUse | undefined;
  readonly copies?: number | undefined;
  readonly who: string;
  readonly day: Day;
  readonly note?: string | undefined;
}

/** The layer that asks for it, and what it is called there. */
export interface AskedToo {
  readonly layer: Layer;
  readonly need: string;
  readonly kind: KindId;
}

type Fields = Readonly<Record<string, unknown>>;

interface Place {
  readonly practice: Practice;
  readonly layers: readonly Layer[];
  readonly errand: Errand;
}

const longestId = 60;

/** "Culvert deposit receipt" -> culvert-deposit-receipt; another one where that names a paper already. */
function newId(title: string, practice: Practice): KindId {
  const plain = title.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  const words = plain
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, longestId)
    .replaceAll(/^[-\d]+|-+$/g, '');
  const base =
    words === '' || words === 'lot' || words === 'figure' ? `paper${words === '' ? '' : `-${words}`}` : words;
  let id = base;
  for (let n = 2; Object.hasOwn(practice.papers, id); n += 1) id = `${base}-${n}`;
  return id;
}

/** The kind that bears this title already, capitals aside. */
export function kindTitled(title: string, practice: Practice): KindId | undefined {
  const said = title.trim().toLocaleLowerCase();
  return Object.values(practice.papers).find((kind) => kind.title.toLocaleLowerCase() === said)?.id;
}

/** Conditions that would keep it from being asked for go; what was never written can't. */
function unconditional({ layers }: Place, path: readonly string[]): Fields {
  const written = writtenUnder(layers, path);
  return Object.fromEntries(['when', 'unless'].filter((key) => written.includes(key)).map((key) => [key, 'drop']));
}

/** The rule of the kind itself: written anew, freed of its condition, or let be brought where no errand yields it. */
function ofPaper(place: Place, { paper }: AnotherPaper, kind: KindId): Fields {
  const { practice, errand } = place;
  const rule = practice.papers[kind];
  if (rule === undefined) {
    const { title, from } = typeof paper === 'string' ? { title: kind, from: undefined } : paper;
    const hint = from === undefined ? { hint: 'Nobody noted who gives it out: ask those who want it.' } : {};
    return { title, from: from ?? errand.office, brought: 'yes', ...hint };
  }
  const yielded = Object.values(practice.errands).some(({ yields }) => yields.includes(kind));
  const own = practice.offices[rule.from]?.sort === 'owner';
  return { ...unconditional(place, ['papers', kind]), ...(yielded || own ? {} : { brought: 'yes' }) };
}

/** The need that asks for this kind already, where it does and no other paper would do as well. */
function needOf({ errand, layers }: Place, kind: KindId): Errand['needs'][number] | undefined {
  return errand.needs.find(
    ({ id, kinds }) =>
      kinds[0] === kind && !writtenUnder(layers, ['errands', errand.id, 'needs', id]).includes('any_of'),
  );
}

function ofNeed(place: Place, said: AnotherPaper, kind: KindId): { readonly id: string; readonly fields: Fields } {
  const { errand, practice } = place;
  const asked = needOf(place, kind);
  const told = { use: said.use, copies: said.copies };
  if (asked === undefined) {
    const taken = errand.needs.some(({ id }) => id === kind);
    const each = practice.papers[kind]?.each;
    const named = taken ? { kind } : {};
    return { id: taken ? `${kind}-too` : kind, fields: { ...named, ...told, ...(each === undefined ? {} : { each }) } };
  }
  const freed = unconditional(place, ['errands', errand.id, 'needs', asked.id]);
  if (Object.keys(freed).length === 0 && !asked.optional) {
    throw new LotfileError('wrong use', `"${errand.title}" asks for ${practice.papers[kind]?.title ?? kind} already.`, {
      about: kind,
      next: `Where they want it otherwise, change its own rule, for example errands.${errand.id}.needs.${asked.id}.copies.`,
    });
  }
  return { id: asked.id, fields: { ...freed, ...(asked.optional ? { optional: 'no' } : {}), ...told } };
}

function withoutEmpty(fields: Fields): Fields {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

/**
 * Writes it as one more layer over those the practice was made from. A paper that is asked for under a condition, or
 * may be left out, is then asked for outright; a title nobody knows becomes a kind of its own.
 * @throws LotfileError 'wrong use' where the errand asks for the paper already
 */
export function anotherPaper(said: AnotherPaper, practice: Practice, layers: readonly Layer[]): AskedToo {
  const errand = practice.errands[said.errand];
  if (errand === undefined) throw new LotfileError('not found', `There is no errand "${said.errand}".`);
  const place: Place = { practice, layers, errand };
  const title = typeof said.paper === 'string' ? undefined : said.paper.title.trim();
  const kind =
    typeof said.paper === 'string' ? said.paper : (kindTitled(title ?? '', practice) ?? newId(title ?? '', practice));
  const paper = ofPaper(place, said, kind);
  const { id, fields } = ofNeed(place, said, kind);
  const note = said.note?.trim() ?? '';
  const top = {
    basis: { 'told by': said.who.trim(), on: said.day, ...(note === '' ? {} : { note }) },
    ...(Object.keys(paper).length === 0 ? {} : { papers: { [kind]: paper } }),
    errands: { [errand.id]: { needs: { [id]: withoutEmpty(fields) } } },
  };
  const name = `word of ${said.day}, ${errand.id} needs ${kind}`;
  return { layer: { name, text: stringify(top, { lineWidth: 0 }) }, need: id, kind };
}
