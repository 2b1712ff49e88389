import { useState } from 'react';
import { type Finding, weights } from '../../../core/vocabulary/finding.ts';
import { Button } from '../../kit/Button.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { inPlace } from '../../kit/in-place.ts';
import type { NeedRow, Sight } from './errand-model.ts';
import { lay } from './errand-store.ts';

/** More than this is folded: the worst stand first. */
const shownAtFirst = 8;

/** The need a finding is about; undefined where it stands between papers or before the errand as a whole. */
function needOf(finding: Finding, needs: readonly NeedRow[]): NeedRow | undefined {
  return needs.find((need) => need.findings.some((own) => own.say === finding.say && own.sort === finding.sort));
}

/** All that speaks against going, worst first. What to bring and the errand's own caution stand in its head. */
export function against({ answer }: Sight): readonly Finding[] {
  return answer.reading.findings
    .filter(({ sort, say }) => sort !== 'bring' && say !== answer.errand.caution)
    .toSorted((a, b) => weights.indexOf(a.weight) - weights.indexOf(b.weight));
}

/** Names the line of a need on the left page, so that it can be jumped to. */
export function placeOf({ need, subject, kind }: Pick<NeedRow, 'need' | 'subject' | 'kind'>): string {
  return ['need', need, subject ?? '', kind].join(' ');
}

/** Goes to a thing on the sheet and lets the keyboard and screen readers follow. */
export function jump(to: string): void {
  const found = document.querySelector<HTMLElement>(`[data-place="${CSS.escape(to)}"]`);
  found?.scrollIntoView({ block: 'center' });
  found?.focus({ preventScroll: true });
}

function Line({ finding, need }: { readonly finding: Finding; readonly need: NeedRow }) {
  const { weight, say } = finding;
  return (
    <div className={`finding ${weight.replaceAll(' ', '-')}`}>
      <p>
        <span className="weight">{weight}</span>
        {say}{' '}
        <Button as="word" small onPress={() => jump(placeOf(need))} label={`Go to ${need.title}: ${say}`}>
          go to {need.title}
        </Button>
      </p>
    </div>
  );
}

/** One list of every finding, each leading to its paper; those between papers tell why right here. */
export function Against({ sight }: { readonly sight: Sight }) {
  const [all, showAll] = useState(false);
  const findings = against(sight);
  if (findings.length === 0) return null;
  const rest = findings.length - shownAtFirst;
  const shown = all || rest <= 1 ? findings : findings.slice(0, shownAtFirst);
  return (
    <section className="errand-against">
      <h2>
        {sight.answer.reading.state === 'settled' ? 'What has lapsed since' : 'What speaks against it, worst first'}
      </h2>
      <ol>
        {shown.map((finding, at) => {
          const need = needOf(finding, sight.answer.needs);
          const first = findings.findIndex(({ weight }) => weight === finding.weight) === at;
          return (
            <li
              key={`${finding.sort} ${finding.agreement ?? ''} ${finding.say}`}
              {...(first ? { 'data-place': `weight ${finding.weight}`, tabIndex: -1 } : {})}
            >
              {need === undefined ? (
                <FindingNote finding={finding} onOtherwise={() => lay({ slip: 'otherwise' })} />
              ) : (
                <Line finding={finding} need={need} />
              )}
            </li>
          );
        })}
      </ol>
      {rest <= 1 ? null : (
        <Button as="word" small onPress={() => showAll(!all)}>
          {all ? 'Only the worst' : `${rest} more`}
        </Button>
      )}
    </section>
  );
}

const counts = /(\d+ (?:reasons?|things?))/;

function weightSaid(count: string, before: string): Finding['weight'] {
  if (count.includes('reason')) return 'refused';
  return before.includes('question') ? 'questioned' : 'ask first';
}

/** What a count leads to: what comes first has a list of its own. */
function placeCounted(count: string, before: string): string {
  return before.endsWith('Too early: ') ? 'comes first' : `weight ${weightSaid(count, before)}`;
}

/** A sentence whose counts lead to what they count. */
export function Counted({ text }: { readonly text: string }) {
  const parts = text.split(counts);
  return inPlace(parts).map(({ part, place }) =>
    place % 2 === 0 ? (
      part
    ) : (
      <Button key={place} as="word" onPress={() => jump(placeCounted(part, parts[place - 1] ?? ''))}>
        {part}
      </Button>
    ),
  );
}
