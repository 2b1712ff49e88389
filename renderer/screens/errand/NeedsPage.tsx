import type { PlanTab } from '../../../core/packet/plan-model.ts';
import type { Finding } from '../../../core/vocabulary/finding.ts';
import type { NeedUse, Practice } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { against, placeOf } from './Against.tsx';
import { kindTitle, type NeedRow, type Sight } from './errand-model.ts';
import { lay } from './errand-store.ts';
import type { Leaf } from './leaves.ts';
import { NeedLine } from './NeedLine.tsx';
import { YieldLine } from './YieldLine.tsx';

const uses: readonly (readonly [NeedUse, string])[] = [
  ['leave', 'Leave with them'],
  ['show', 'Show and take back'],
  ['bring home', 'Bring home'],
];

interface PageProps {
  readonly sight: Sight;
  readonly tabs: ReadonlyMap<NeedRow, PlanTab>;
  readonly leaves: readonly Leaf[];
}

/** Kinds that a finding between papers touches. */
function kindsIn({ agreement }: Finding, practice: Practice | undefined): readonly string[] {
  if (agreement === undefined) return [];
  const terms = practice?.agreements[agreement]?.terms ?? [];
  return terms.flatMap((term) => (term.of === 'paper' ? [term.kind] : []));
}

/** What stands for no single paper: agreements between papers, what has to be before, duties. */
function errandWide(sight: Sight): readonly Finding[] {
  return against(sight).filter(({ need }) => need === undefined);
}

function Yields({ sight: { answer, practice } }: { readonly sight: Sight }) {
  const { yields } = answer.errand;
  const untold = (kind: string): string | undefined =>
    answer.reading.findings.find(
      (one) => one.sort === 'errand not settled' && one.kind === kind && one.edition !== undefined,
    )?.say;
  if (yields.length === 0) return null;
  return (
    <ul className="errand-yields">
      {yields.map((kind) => (
        <YieldLine key={kind} kind={kind} title={kindTitle(practice, kind)} untold={untold(kind)} />
      ))}
    </ul>
  );
}

function Group({ use, title, props }: { readonly use: NeedUse; readonly title: string; readonly props: PageProps }) {
  const { sight, tabs, leaves } = props;
  const needs = sight.answer.needs.filter((need) => need.use === use);
  const home = use === 'bring home' && sight.answer.errand.yields.length > 0;
  if (needs.length === 0 && !home) return null;
  const between = errandWide(sight);
  return (
    <section className="errand-use">
      <h2>{title}</h2>
      {needs.length === 0 ? null : (
        <ol>
          {needs.map((need) => (
            <NeedLine
              key={placeOf(need)}
              need={need}
              sight={sight}
              tab={tabs.get(need)}
              leaves={leaves}
              disagrees={between.some(
                (finding) => finding.weight !== 'ask first' && kindsIn(finding, sight.practice).includes(need.kind),
              )}
            />
          ))}
        </ol>
      )}
      {home ? <Yields sight={sight} /> : null}
    </section>
  );
}

/** What an office says at the counter: another rule, or another paper. */
function SaidOtherwise() {
  return (
    <>
      <Button as="word" small onPress={() => lay({ slip: 'another paper' })}>
        They want another paper too
      </Button>{' '}
      <Button as="word" small onPress={() => lay({ slip: 'otherwise' })}>
        The office said otherwise
      </Button>
    </>
  );
}

/** The left page: what this office wants, in order, with what speaks against each. */
export function NeedsPage(props: PageProps) {
  const { sight } = props;
  return (
    <div className="errand-left">
      {sight.answer.needs.length === 0 ? (
        <p className="errand-none">
          {sight.answer.office.sort === 'owner' ? 'It takes no papers.' : 'They ask for no papers here.'}{' '}
          <SaidOtherwise />
        </p>
      ) : null}
      {uses.map(([use, title]) => (
        <Group key={use} use={use} title={title} props={props} />
      ))}
      {sight.answer.needs.length === 0 ? null : (
        <p className="errand-foot small pencil">
          This is what your papers and the rules on file say; the office and licensed people decide. <SaidOtherwise />
        </p>
      )}
      <p className="errand-foot small">
        <a href={addressOf('errand')}>All errands</a>
      </p>
    </div>
  );
}
