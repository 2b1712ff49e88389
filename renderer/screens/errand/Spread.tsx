import { useMemo, useRef } from 'react';
import type { Sight } from './errand-model.ts';
import { Leaders } from './Leaders.tsx';
import { leavesOf, tabsByNeed } from './leaves.ts';
import { NeedsPage } from './NeedsPage.tsx';
import { StackPage } from './StackPage.tsx';

/** The field-book spread: what they want on the left, the sheets on the right, joined across the gutter. */
export function Spread({ sight }: { readonly sight: Sight }) {
  const spread = useRef<HTMLDivElement>(null);
  const { plan, answer } = sight;
  const leaves = useMemo(() => (plan === undefined ? [] : leavesOf(plan)), [plan]);
  const tabs = useMemo(() => tabsByNeed(answer.needs, plan?.tabs ?? []), [answer.needs, plan]);
  if (answer.reading.state === "doesn't apply") return null;
  return (
    <div className="errand-spread" ref={spread}>
      <NeedsPage sight={sight} tabs={tabs} leaves={leaves} />
      {leaves.length === 0 ? null : <Leaders within={spread} tabs={tabs} leaves={leaves} />}
      <StackPage sight={sight} leaves={leaves} />
    </div>
  );
}
