import { dayInWords } from '../../../vocabulary/days.ts';
import type { Edition, LotView, Paper } from '../../../vocabulary/lot.ts';
import type { SameAgain } from '../../contract/table-answers.ts';

/** The same certificate once more: a better scan of it, or its renewal. */

/** Letters and figures alone, so that "BP-26-0412" and "BP 26 0412" are one number. */
function bare(text: string): string {
  return text.toUpperCase().replace(/[^A-Z0-9]/g, '');
}

interface Like {
  readonly paper: Paper;
  readonly edition: Edition;
}

function told({ paper, edition }: Like, why: string): SameAgain {
  const { number = '', issued } = edition;
  return {
    edition: edition.id,
    paper: paper.id,
    title: paper.title,
    number,
    issued: issued === undefined ? '' : dayInWords(issued),
    why,
  };
}

export interface Looked {
  readonly kind: string | undefined;
  readonly number?: string | undefined;
  readonly issuer?: string | undefined;
  readonly subject?: string | undefined;
}

/**
 * The newest edition kept that seems to be the same certificate: of the same kind and number, else of the same kind and
 * issuer for the same firm (or for nobody in particular).
 */
export function sameAgain({ kind, number, issuer, subject }: Looked, view: LotView): SameAgain | undefined {
  if (kind === undefined || kind === 'other') return undefined;
  const all: readonly Like[] = view.papers
    .filter((paper) => paper.kind === kind)
    .flatMap((paper) => paper.editions.map((edition) => ({ paper, edition })));
  const digits = number === undefined ? '' : bare(number);
  const byNumber = all.findLast(({ edition }) => digits.length > 2 && bare(edition.number ?? '') === digits);
  if (byNumber !== undefined) {
    return told(
      byNumber,
      `“${byNumber.paper.title}” with the same number, ${byNumber.edition.number}, is kept already.`,
    );
  }
  const from = issuer === undefined ? '' : bare(issuer);
  const byIssuer = all.findLast(
    ({ paper, edition }) =>
      from.length > 2 && bare(edition.issuer ?? '') === from && (subject === undefined || paper.subject === subject),
  );
  if (byIssuer === undefined) return undefined;
  return told(byIssuer, `“${byIssuer.paper.title}” by the same issuer, ${byIssuer.edition.issuer}, is kept already.`);
}
