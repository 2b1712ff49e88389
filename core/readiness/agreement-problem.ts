import type { Weight } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Agreement, KindId } from '../vocabulary/practice.ts';
import { type AgreementOutcome, judgeAgreement } from './agreements.ts';
import { changesFor } from './changes.ts';
import { appliesAt } from './condition-at.ts';
import type { Entry } from './lot-index.ts';
import { type Mend, type Problem, weightOf } from './problem.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { sentence } from './words.ts';

type Unsound = Extract<AgreementOutcome, { readonly say: string }>;

function weigh(agreement: Agreement, outcome: Unsound): Weight {
  if (outcome.is === 'broken') return weightOf(agreement.basis);
  return outcome.is === 'doubtful' ? 'questioned' : 'ask first';
}

function mendFor(at: Standpoint, agreement: Agreement, outcome: Unsound): Mend {
  if (outcome.is === 'doubtful') return { do: 'say', say: outcome.ask };
  const titles = agreement.terms.flatMap((term) =>
    term.of === 'paper' ? [`"${kindOf(at, term.kind)?.title ?? term.kind}"`] : [],
  );
  const papers = titles.length === 0 ? 'the answers' : [...new Set(titles)].join(' and ');
  if (outcome.is === 'unknown') return { do: 'say', say: `Look at ${papers}, and enter what is missing.` };
  const otherwise = `Look at ${papers}, and have the wrong one put right.`;
  const among = outcome.pair === undefined ? [] : changesFor(agreement.verb, outcome.pair);
  return among.length === 0 ? { do: 'say', say: otherwise } : { do: 'choose', otherwise, among };
}

/** What an agreement finds for one subject; undefined where it holds or isn't asked. */
export function agreementProblem(
  at: Standpoint,
  agreement: Agreement,
  given: {
    readonly subject: SubjectId | undefined;
    readonly chosen: ReadonlyMap<KindId, Entry>;
    readonly errand?: string;
  },
): Problem | undefined {
  const terms = { at, subject: given.subject, chosen: given.chosen };
  const outcome = judgeAgreement(agreement, terms, appliesAt(at, agreement.when));
  if (outcome.is === 'holds' || outcome.is === 'not asked') return undefined;
  const paper = agreement.terms.find((term) => term.of === 'paper');
  return {
    weight: weigh(agreement, outcome),
    sort: 'disagree',
    errand: given.errand,
    agreement: agreement.id,
    kind: paper?.kind,
    subject: given.subject,
    say: outcome.say,
    why: sentence(agreement.say),
    basis: agreement.basis,
    mend: mendFor(at, agreement, outcome),
    ...(outcome.is === 'doubtful' && outcome.alike !== undefined ? { alike: outcome.alike } : {}),
    final: false,
  };
}
