import { useState } from 'react';
import { dayWithWeekday } from '../../core/vocabulary/days.ts';
import type { Finding } from '../../core/vocabulary/finding.ts';
import { basisInWords } from '../../core/vocabulary/in-words.ts';
import { perform } from '../state/doing.ts';
import { addressOf } from '../state/place.ts';
import { Button } from './Button.tsx';

/** Who decides, said once with every finding's reasons. */
const decides = 'Your county and licensed people decide; this is what your papers and the rules on file say.';

export interface FindingNoteProps {
  readonly finding: Finding;
  /** Opened from the start: where only one stands. */
  readonly open?: boolean | undefined;
  /** "The office said otherwise": given where the rule can be amended from here. */
  readonly onOtherwise?: (() => void) | undefined;
}

/** Two spellings of one owner, place or parcel: said once, and it is not asked again. */
function TheSame({ finding: { alike } }: { readonly finding: Finding }) {
  if (alike === undefined) return null;
  const { a, b } = alike;
  const say = (): void => {
    void perform('same', alike, { say: `"${a}" and "${b}" are the same.` });
  };
  return (
    <Button small onPress={say} label={`"${a}" and "${b}" are the same`}>
      They are the same
    </Button>
  );
}

/** Where what was noted of a paper may be wrong, and not the paper: it is looked at and corrected there. */
function EnteredWrong({ finding: { waysOut = [] } }: { readonly finding: Finding }) {
  return waysOut.map(({ title, paper, edition }) =>
    paper === undefined || edition === undefined ? null : (
      <span key={edition}>
        <a href={addressOf('papers', paper, edition)}>Look at {title} and correct it</a>{' '}
      </span>
    ),
  );
}

/** One finding: weight by bar and word, what is wrong, and one press away why, on whose word, and the way out. */
export function FindingNote({ finding, open = false, onOtherwise }: FindingNoteProps) {
  const [shown, show] = useState(open);
  const { weight, say, why, basis, remedy } = finding;
  return (
    <div className={`finding ${weight.replaceAll(' ', '-')}`}>
      <p>
        <span className="weight">{weight}</span>
        {say}{' '}
        <Button
          as="word"
          small
          onPress={() => show(!shown)}
          label={`${shown ? 'Show less' : 'Show why, and what to do'}: ${say}`}
        >
          {shown ? 'less' : 'why, and what to do'}
        </Button>
      </p>
      {shown ? (
        <div className="more">
          <dl>
            <dt>Why</dt>
            <dd>{why}</dd>
            <dt>Who says so</dt>
            <dd>{basisInWords(basis)}</dd>
            <dt>What to do</dt>
            <dd>
              {remedy.say} <TheSame finding={finding} /> <EnteredWrong finding={finding} />
              {remedy.errand === undefined ? null : <a href={addressOf('errand', remedy.errand)}>Go to that errand</a>}
              {remedy.earliest === undefined || remedy.withThem === true
                ? null
                : `, ${dayWithWeekday(remedy.earliest)} at the earliest`}
            </dd>
          </dl>
          <p className="pencil">
            {decides}{' '}
            {onOtherwise === undefined ? null : (
              <Button as="word" small onPress={onOtherwise}>
                The office said otherwise
              </Button>
            )}
          </p>
        </div>
      ) : null}
    </div>
  );
}
