import { useState } from 'react';
import { createPortal } from 'react-dom';
import type { PlanAnswer } from '../../../core/desk/contract/answers.ts';
import type { Drawing } from '../../../core/typeset/drawing.ts';
import { Button } from '../../kit/Button.tsx';
import { inPlace } from '../../kit/in-place.ts';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { SheetPicture } from '../../kit/SheetPicture.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { fetchAnswer } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { savePaper } from '../../state/writing.ts';
import type { Sight } from './errand-model.ts';
import { putAway } from './errand-store.ts';

/** The drawings of the owner's own sheet, from the plan. */
function ownSheets(plan: PlanAnswer | undefined): readonly Drawing[] {
  return (plan?.files ?? []).flatMap((file) =>
    file.of === 'assembled' && file.sort === 'errand sheet'
      ? file.sheets.flatMap((sheet) => (sheet.of === 'written' ? [sheet.drawing] : []))
      : [],
  );
}

/** What goes to the printer: the drawn sheets alone, one to a page; nothing of the window. */
function ForThePrinter({ sheets }: { readonly sheets: readonly Drawing[] }) {
  return createPortal(
    <div className="errand-print" aria-hidden="true">
      {inPlace(sheets).map(({ part, place }) => (
        <SheetPicture key={place} drawing={part} title="" />
      ))}
    </div>,
    document.body,
  );
}

/** What to ask by phone before driving there; for an inspection, the sheet for its day. */
function OtherSheets({ sight }: { readonly sight: Sight }) {
  const { target, answer } = sight;
  return (
    <>
      <Button onPress={() => void savePaper({ sort: 'phone-list', ...target })}>Save the phone list</Button>
      {answer.errand.inspection ? (
        <Button onPress={() => void savePaper({ sort: 'inspection-day', ...target })}>
          Save the inspection-day sheet
        </Button>
      ) : null}
    </>
  );
}

/** The owner's own errand sheet: to read, print or save; never to hand in. */
export function OwnSheetSlip({ sight }: { readonly sight: Sight }) {
  const [saving, setSaving] = useState(false);
  const sheets = ownSheets(sight.plan);
  const save = async (): Promise<void> => {
    setSaving(true);
    const made = await fetchAnswer('errand-sheet', { ...sight.target });
    setSaving(false);
    if (made !== undefined) await saveFile(made);
  };
  return (
    <Slip
      title="Your errand sheet"
      open
      wide
      onClose={putAway}
      foot={
        <>
          <Button as="stamp" onPress={() => window.print()}>
            Print
          </Button>
          <Button disabled={saving} onPress={() => void save()}>
            {saving ? 'Writing ...' : 'Save as PDF'}
          </Button>
          <OtherSheets sight={sight} />
        </>
      }
    >
      <p>Private: it stays with you and is never handed in. Space for notes is on it.</p>
      <Scrolled className="errand-own" label="Its sheets">
        {inPlace(sheets).map(({ part, place }) => (
          <SheetPicture
            key={place}
            drawing={part}
            title={`Your errand sheet, sheet ${place + 1} of ${sheets.length}`}
          />
        ))}
      </Scrolled>
      <ForThePrinter sheets={sheets} />
    </Slip>
  );
}
