import { type Figure, type FigureLimit, figures } from '../figures/index.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { Edition, EditionId, SubjectId } from '../vocabulary/lot.ts';
import type { Agreement, Basis, KindId, Term } from '../vocabulary/practice.ts';
import { type AgreementOutcome, judgeAgreement } from './agreements.ts';
import { appliesAt } from './condition-at.ts';
import type { Entry } from './lot-index.ts';
import { type Asked, indexLot, type Standpoint } from './standpoint.ts';
import { type TermCase, type TermValue, termValue } from './terms.ts';

/** A value a figure was reckoned from, and where it was taken. */
export interface FigurePart {
  readonly name: string;
  /** "fan flow on "Air leakage report"". */
  readonly from: string;
  readonly value: FactValue | undefined;
  readonly edition: EditionId | undefined;
  /** Outside what such a value usually is: a digit was likely misread. */
  readonly unusual: boolean;
}

/** The same number as a licensed person's paper prints it. */
export interface FigurePrinted {
  readonly from: string;
  readonly value: FactValue;
  readonly edition: EditionId | undefined;
  /** Undefined where ours can't be reckoned. */
  readonly agrees: boolean | undefined;
}

export interface FigureAgainst {
  readonly say: string;
  readonly source: string;
  readonly most: number | undefined;
  readonly least: number | undefined;
  readonly within: boolean | undefined;
}

/** One figure with everything it has to be shown with: parts, source, caution, what papers and rules say beside it. */
export interface FigureReading {
  readonly figure: Figure;
  readonly value: FactValue | undefined;
  readonly parts: readonly FigurePart[];
  readonly unusual: boolean;
  readonly printed: readonly FigurePrinted[];
  /** The paper agrees with another usual way of reckoning it, not with this one. */
  readonly agreesOtherWay: boolean;
  readonly limits: readonly FigureAgainst[];
  /** Rules of the practice that compare it. */
  readonly rules: readonly {
    readonly agreement: string;
    readonly say: string;
    readonly basis: Basis;
    readonly outcome: AgreementOutcome;
  }[];
}

/** For which paper: the edition looked at goes before the one that counts. */
export interface FigureCase {
  readonly kind: KindId;
  readonly edition?: Edition | undefined;
  readonly subject?: SubjectId | undefined;
}

function speaksOf(terms: readonly Term[], kind: KindId): boolean {
  return terms.some((term) => term.of === 'paper' && term.kind === kind);
}

function comparing(agreement: Agreement, figure: Figure): boolean {
  return agreement.terms.some((term) => term.of === 'figure' && term.figure === figure.id);
}

/** Only what can be held against something: a sum that nothing is compared with would be a design. */
function isChecked({ practice }: Pick<Asked, 'practice'>, figure: Figure): boolean {
  if (Object.keys(figure.needs).length === 0) return false;
  if (figure.printed !== undefined || figure.limits !== undefined) return true;
  return Object.values(practice.agreements).some((agreement) => comparing(agreement, figure));
}

/** Figures that have to do with a kind of paper: reckoned from it, printed on it, or compared with it by a rule. */
export function figuresOfKind({ practice }: Pick<Asked, 'practice'>, kind: KindId): readonly Figure[] {
  const agreements = Object.values(practice.agreements).filter(({ terms }) => speaksOf(terms, kind));
  return Object.values(figures).filter(
    (figure) =>
      isChecked({ practice }, figure) &&
      (Object.values(figure.needs).some((terms) => speaksOf(terms, kind)) ||
        speaksOf(figure.printed?.terms ?? [], kind) ||
        agreements.some((agreement) => comparing(agreement, figure))),
  );
}

function outside(value: FactValue | undefined, usual: readonly [number, number] | undefined): boolean {
  if (value === undefined || usual === undefined || typeof value.value !== 'number') return false;
  return value.value < usual[0] || value.value > usual[1];
}

function known(value: TermValue | undefined): FactValue | undefined {
  return value?.is === 'known' ? value.value : undefined;
}

function entryOf(value: TermValue | undefined): Entry | undefined {
  return value === undefined || value.is === 'no paper' ? undefined : value.entry;
}

function partsOf(given: TermCase, figure: Figure): readonly FigurePart[] {
  return Object.entries(figure.needs).map(([name, sources]) => {
    const values = sources.map((source) => termValue(given, source));
    const found = values.find(({ is }) => is === 'known') ?? values.find(({ is }) => is === 'unknown') ?? values[0];
    const value = known(found);
    const from = found === undefined || found.is === 'no paper' ? name : found.from;
    return { name, from, value, edition: entryOf(found)?.edition.id, unusual: outside(value, figure.usual?.[name]) };
  });
}

function reckoned(given: TermCase, figure: string): FactValue | undefined {
  return known(termValue(given, { of: 'figure', figure }));
}

function near(a: FactValue, b: FactValue, within: number): boolean {
  return (
    typeof a.value === 'number' && typeof b.value === 'number' && Math.abs(a.value - b.value) <= within + Number.EPSILON
  );
}

function printedOf(given: TermCase, { printed, id }: Figure): readonly FigurePrinted[] {
  if (printed === undefined) return [];
  const ours = reckoned(given, id);
  return printed.terms.flatMap((term): readonly FigurePrinted[] => {
    const found = termValue(given, term);
    if (found.is !== 'known') return [];
    const agrees = ours === undefined ? undefined : near(ours, found.value, printed.within);
    return [{ from: found.from, value: found.value, edition: found.entry?.edition.id, agrees }];
  });
}

function limitOf(given: TermCase, limit: FigureLimit, ours: FactValue | undefined): FigureAgainst | undefined {
  const { say, source, least } = limit;
  const most = typeof limit.most === 'object' ? reckoned(given, limit.most.figure)?.value : limit.most;
  const top = typeof most === 'number' ? most : undefined;
  if (top === undefined && least === undefined) return undefined;
  const value = typeof ours?.value === 'number' ? ours.value : undefined;
  const within =
    value === undefined ? undefined : (top === undefined || value <= top) && (least === undefined || value >= least);
  return { say, source, most: top, least, within };
}

function rulesOf(given: TermCase, figure: Figure): FigureReading['rules'] {
  const { at } = given;
  return Object.values(at.practice.agreements)
    .filter((agreement) => comparing(agreement, figure))
    .flatMap((agreement) => {
      const outcome = judgeAgreement(agreement, given, appliesAt(at, agreement.when));
      if (outcome.is === 'not asked') return [];
      return [{ agreement: agreement.id, say: agreement.say, basis: agreement.basis, outcome }];
    });
}

function otherWayAgrees(given: TermCase, { otherWay }: Figure): boolean {
  const other = otherWay === undefined || !Object.hasOwn(figures, otherWay) ? undefined : figures[otherWay];
  return other !== undefined && printedOf(given, other).some(({ agrees }) => agrees === true);
}

function readOne(given: TermCase, figure: Figure): FigureReading {
  const value = reckoned(given, figure.id);
  const printed = printedOf(given, figure);
  return {
    figure,
    value,
    parts: partsOf(given, figure),
    unusual: outside(value, figure.usualAnswer),
    printed,
    agreesOtherWay: printed.some(({ agrees }) => agrees === false) && otherWayAgrees(given, figure),
    limits: (figure.limits ?? []).flatMap((limit) => limitOf(given, limit, value) ?? []),
    rules: rulesOf(given, figure),
  };
}

/** The figure is this paper's: it gives the first choice of a number, or gave one that was used, or a rule compares it. */
function bearsOn({ figure, value, parts, printed, rules }: FigureReading, { kind, edition }: FigureCase): boolean {
  const first = Object.values(figure.needs).some((terms) => speaksOf(terms.slice(0, 1), kind));
  const used = value !== undefined && parts.some((part) => part.edition !== undefined && part.edition === edition?.id);
  return first || used || printed.some((one) => one.edition === edition?.id) || rules.length > 0;
}

function caseOf(at: Standpoint, { kind, edition, subject }: FigureCase): TermCase {
  const entry = edition === undefined ? undefined : at.index.entries.get(edition.id);
  return { at, subject, chosen: entry === undefined ? new Map() : new Map([[kind, entry]]) };
}

/**
 * Every figure that has to do with a paper, reckoned with that edition: never a design, only the paper's own arithmetic
 * done again, so that a misread or misprinted number is seen.
 */
export function readFigures(asked: Asked, about: FigureCase): readonly FigureReading[] {
  const at = indexLot(asked);
  const given = caseOf(at, about);
  return figuresOfKind(asked, about.kind)
    .map((figure) => readOne(given, figure))
    .filter((reading) => bearsOn(reading, about));
}
