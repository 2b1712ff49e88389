import { AnotherPaperSlip } from './AnotherPaper.tsx';
import { AssembleSlip } from './AssembleSlip.tsx';
import type { Sight } from './errand-model.ts';
import { putAway, useErrandView } from './errand-store.ts';
import { FormSlip } from './FormSlip.tsx';
import { HandOverSlip } from './HandOverSlip.tsx';
import { MadeSlip } from './MadeSlip.tsx';
import { NotHereSlip } from './NotHereSlip.tsx';
import { OtherwiseSlip } from './OtherwiseSlip.tsx';
import { OutcomeSlip } from './OutcomeSlip.tsx';
import { OwnSheetSlip } from './OwnSheetSlip.tsx';

/** Whatever slip lies over the spread just now. */
export function Slips({ sight }: { readonly sight: Sight }) {
  const slip = useErrandView((state) => state.slip);
  if (slip === undefined) return null;
  switch (slip.slip) {
    case 'otherwise':
      return <OtherwiseSlip sight={sight} about={slip.about} />;
    case 'another paper':
      return <AnotherPaperSlip errand={sight.target.errand} onClose={putAway} />;
    case 'not here':
      return <NotHereSlip {...slip} />;
    case 'assemble':
      return <AssembleSlip sight={sight} />;
    case 'made':
      return <MadeSlip made={slip.made} />;
    case 'hand over':
      return <HandOverSlip sight={sight} packet={slip.packet} />;
    case 'outcome':
      return <OutcomeSlip sight={sight} />;
    case 'form':
      return <FormSlip wanted={{ errand: sight.target.errand, need: slip.need, subject: slip.subject }} />;
    case 'own sheet':
      return <OwnSheetSlip sight={sight} />;
  }
}
