import type { AssembleAnswer } from '../../../core/desk/contract/answers.ts';
import { things } from '../../../core/vocabulary/verdict.ts';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Where } from '../../kit/Where.tsx';
import { savePaper } from '../../state/writing.ts';
import { lay, putAway } from './errand-store.ts';
import { FileList } from './FileList.tsx';

/** The finished packet: its files, and what was told while it was made. */
export function MadeSlip({ made }: { readonly made: AssembleAnswer }) {
  return (
    <Slip
      title={made.draft ? `Made as a DRAFT: ${made.title}` : `Made: ${made.title}`}
      open
      wide
      onClose={putAway}
      foot={
        <>
          <Button as={made.draft ? 'stamp' : 'plain'} onPress={putAway}>
            Later
          </Button>
          <Button as={made.draft ? 'plain' : 'stamp'} onPress={() => lay({ slip: 'hand over', packet: made.packet })}>
            Hand it over{made.draft ? ' all the same' : ''}
          </Button>
          <Button onPress={() => void savePaper({ sort: 'transmittal', packet: made.packet })}>
            Save the letter that goes with it
          </Button>
        </>
      }
    >
      <div className="errand-slip">
        <p>
          {things(made.files.length, 'file')}, read back and checked against the papers they were made from. They lie in{' '}
          <Where place={made.place} />
        </p>
        {made.draft ? (
          <p className="errand-draft">It is a DRAFT: its margins say so. Don’t hand it in like this.</p>
        ) : null}
        <FileList files={made.files} />
        {made.notes.length === 0 ? null : (
          <div className="errand-told">
            <h3>Good to know</h3>
            <ul className="small">
              {made.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </div>
        )}
      </div>
    </Slip>
  );
}
