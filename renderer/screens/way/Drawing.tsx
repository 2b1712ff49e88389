import { memo } from 'react';
import { PlanBand } from './PlanBand.tsx';
import { ProfileBand } from './ProfileBand.tsx';
import { SheetWords } from './SheetWords.tsx';
import type { SheetPlan } from './sheet-plan.ts';
import { Waits } from './Waits.tsx';

const Ground = memo(function Ground({ plan }: { readonly plan: SheetPlan }) {
  return (
    <>
      <ProfileBand plan={plan} />
      <PlanBand plan={plan} />
      <SheetWords plan={plan} />
    </>
  );
});

/** Everything drawn; what can be pressed or read aloud stands over it as buttons and links. */
export function Drawing({ plan, focused }: { readonly plan: SheetPlan; readonly focused: string | undefined }) {
  return (
    <svg className="way-drawing" viewBox={`0 0 ${plan.width} ${plan.height}`} aria-hidden="true">
      <defs>
        <pattern id="way-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V5" />
        </pattern>
        <pattern id="way-cross" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7M0 0H7" />
        </pattern>
      </defs>
      <Ground plan={plan} />
      <Waits plan={plan} focused={focused} />
    </svg>
  );
}
