import type { KindId } from '../vocabulary/practice.ts';
import { sheetInWords } from '../vocabulary/sheets.ts';
import type { Entry } from './lot-index.ts';
import { type NeedCase, needProblem, officeTitle, paperTitle } from './need-case.ts';
import type { Problem } from './problem.ts';
import { kindOf } from './standpoint.ts';
import { factOf, wholeOf } from './whole-edition.ts';

interface PaperCase {
  readonly given: NeedCase;
  readonly kind: KindId;
  readonly entry: Entry;
}

function plain(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, ' ');
}

function markProblems({ given, kind, entry }: PaperCase): readonly Problem[] {
  const { at, need, subject } = given;
  const marks = new Set(wholeOf(at, entry).marks.map(plain));
  const missing = need.marks.filter((mark) => !marks.has(plain(mark)));
  const { stampedBy } = need;
  if (stampedBy !== undefined) {
    const title = officeTitle(at, stampedBy);
    if (!marks.has(`stamped by ${plain(stampedBy)}`) && !marks.has(`stamped by ${plain(title)}`))
      missing.push(`stamped by ${title}`);
  }
  return missing.map((mark) =>
    needProblem(
      given,
      { kind, entry, sort: 'mark missing' },
      {
        say: `${paperTitle(at, kind, subject)}: "${mark}" is asked for and not ticked.`,
        mend: { do: 'say', say: `Look at the paper: tick "${mark}" if it is so, or have it put right first.` },
      },
    ),
  );
}

/** A fact nobody entered is not known to be missing from the paper: look first. */
function factProblems({ given, kind, entry }: PaperCase): readonly Problem[] {
  const { at, need, subject } = given;
  const rule = kindOf(at, kind);
  return need.facts
    .filter(
      (fact) =>
        factOf(at, entry, fact) === undefined &&
        (rule === undefined || need.kinds.length === 1 || Object.hasOwn(rule.facts, fact)),
    )
    .map((fact) => {
      const title = rule !== undefined && Object.hasOwn(rule.facts, fact) ? rule.facts[fact]?.title : undefined;
      const problem = needProblem(
        given,
        { kind, entry, sort: 'fact missing' },
        {
          say: `${paperTitle(at, kind, subject)} has to say: ${title ?? fact.replaceAll('_', ' ')}; that isn't entered.`,
          mend: { do: 'say', say: 'Look at the paper and enter it; if the paper is silent, have it added.' },
        },
      );
      return { ...problem, weight: 'ask first' };
    });
}

const wetMarks: ReadonlySet<string> = new Set(['sealed', 'wet seal', 'wet sealed', 'wet-sealed']);
const digitalMarks: ReadonlySet<string> = new Set(['digital seal', 'digitally sealed']);

function sealProblem({ given, kind, entry }: PaperCase): Problem | undefined {
  const { at, need, subject } = given;
  if (need.seal.length === 0) return undefined;
  const marks = wholeOf(at, entry).marks.map(plain);
  const digital = entry.edition.sealed || marks.some((mark) => digitalMarks.has(mark));
  const wet = marks.some((mark) => wetMarks.has(mark));
  if ((digital && need.seal.includes('digital')) || (wet && need.seal.includes('wet'))) return undefined;
  const wanted = need.seal.map((seal) => `a ${seal} seal`).join(' or ');
  const has = digital ? ' It carries a digital seal.' : wet ? ' It is noted as wet sealed.' : '';
  return needProblem(
    given,
    { kind, entry, sort: 'seal missing' },
    {
      say: `${paperTitle(at, kind, subject)} has to carry ${wanted}, and none is noted.${has}`,
      mend: { do: 'say', say: 'Look at the paper: tick "wet seal" if it is so, or have it sealed by whoever made it.' },
    },
  );
}

function inWords(sheets: readonly string[]): string {
  return sheets.map(sheetInWords).join(', ');
}

function sheetProblem({ given, kind, entry }: PaperCase): Problem | undefined {
  const { at, need, subject } = given;
  if (need.sheets.length === 0) return undefined;
  const wanted: readonly string[] = need.sheets;
  const wrong = entry.edition.sheets.filter((sheet) => !wanted.includes(sheet));
  if (wrong.length === 0) return undefined;
  return needProblem(
    given,
    { kind, entry, sort: 'sheet size' },
    {
      say: `${paperTitle(at, kind, subject)} has sheets of ${inWords(wrong)}; they take ${inWords(wanted)}.`,
      mend: { do: 'say', say: 'Ask whoever drew it for the size they take; scaling a drawing spoils its scale.' },
    },
  );
}

/** A roll in the truck can't be sent as a file; on paper it goes along by hand. */
function physicalProblem({ given, kind, entry }: PaperCase): Problem | undefined {
  if (!entry.edition.physicalOnly) return undefined;
  const { at, need, errand, subject } = given;
  const byFile = need.form === 'electronic' || errand.deliver.way === 'upload' || errand.deliver.way === 'e-mail';
  const title = paperTitle(at, kind, subject);
  const problem = needProblem(
    given,
    { kind, entry, sort: 'physical only' },
    {
      say: byFile
        ? `${title} is only on paper in your hands, and they take files.`
        : `${title} is only on paper in your hands: it can't be in the packet.`,
      mend: { do: 'say', say: byFile ? 'Scan it, or ask for the file.' : 'Carry it along.' },
    },
  );
  return byFile ? problem : { ...problem, weight: 'good to know' };
}

/** What is asked of the paper itself: marks, facts, seal, sheet size, paper or file. */
export function formProblems(paper: PaperCase): readonly Problem[] {
  const single = [sealProblem(paper), sheetProblem(paper), physicalProblem(paper)].filter(
    (problem) => problem !== undefined,
  );
  return [...markProblems(paper), ...factProblems(paper), ...single];
}
