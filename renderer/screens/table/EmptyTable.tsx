import type { ShownPlace } from '../../../core/desk/contract/table-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Where } from '../../kit/Where.tsx';
import { ChooseFiles } from './ChooseFiles.tsx';
import { choose, onPaperOnly } from './table-state.ts';

export interface EmptyTableProps {
  readonly folder: string;
  readonly place: ShownPlace;
  /** The kind that is to come in, where one is known. */
  readonly awaited?: string | undefined;
}

/** What this place is for, and the three ways a paper gets here. */
export function EmptyTable({ folder, place, awaited }: EmptyTableProps) {
  return (
    <div className="empty table-empty">
      <h2 className="table-next" tabIndex={-1}>
        {awaited === undefined ? 'The table is clear' : `${awaited}: lay it here`}
      </h2>
      <p>What comes in lies here until you have said what it is: then it is kept, and every errand knows of it.</p>
      <ul className="table-ways">
        <li>Drop files anywhere in this window: PDFs, scans, photos, several at once.</li>
        <li>
          From your phone: let photos arrive in {folder}, by whatever way you share files. They show up here by
          themselves. On this computer it is <Where place={place} />
        </li>
        <li>A sheet that stays in your drawer can be noted without a file.</li>
      </ul>
      <div className="table-acts">
        <ChooseFiles as="stamp" />
        <Button onPress={() => choose(onPaperOnly)}>Note a paper you hold on paper only</Button>
      </div>
    </div>
  );
}
