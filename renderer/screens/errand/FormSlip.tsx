import { useState } from 'react';
import type { FilledAnswer, FormAnswer } from '../../../core/desk/contract/form-answers.ts';
import { basisInWords } from '../../../core/vocabulary/in-words.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { addressOf, go } from '../../state/place.ts';
import { putAway } from './errand-store.ts';
import { FormBoxes } from './FormBoxes.tsx';
import { FormSheet } from './FormSheet.tsx';
import type { FormWanted } from './form-view.ts';
import './form.css';

function boxes(count: number): string {
  return count === 1 ? '1 box' : `${count} boxes`;
}

function filledSay({ boxes: count, left, already }: FilledAnswer): string {
  const open = left.length === 0 ? '' : ` ${boxes(left.length)} still open.`;
  if (already) return `This very copy is in the lot already.${open}`;
  return `Filled ${boxes(count)}.${open} Read it through, print it, sign it; then keep the signed one.`;
}

/** No blank was recognised: what to keep, and kept papers with boxes that could be it. */
function NoBlank({ form, onBlank }: { readonly form: FormAnswer; readonly onBlank: (edition: string) => void }) {
  return (
    <div className="form-no-blank">
      <p>
        {form.candidates.length === 0
          ? 'The office’s blank is not in the lot. Keep its own fillable PDF, as it came, without a kind: it is known by its boxes.'
          : 'Which of your papers is the office’s blank?'}
      </p>
      {form.partsOfFiles.length === 0 ? null : (
        <p className="small">
          Not looked at, for each is only a part of its file, and filling takes the whole file:{' '}
          {form.partsOfFiles.map(({ paper, title }, at) => (
            <span key={paper}>
              {at === 0 ? '' : ', '}
              <a href={addressOf('papers', paper)}>{title}</a>
            </span>
          ))}
          . If the blank is one of them, keep that form once more as a file of its own.
        </p>
      )}
      <div className="errand-row">
        {form.candidates.map(({ edition, title, boxes: count }) => (
          <Button key={edition} onPress={() => onBlank(edition)}>
            {title} ({boxes(count)})
          </Button>
        ))}
        <Button as="word" onPress={() => go('table')}>
          Add the blank
        </Button>
      </div>
    </div>
  );
}

function quoted(text: string, none: string): string {
  return text === '' ? none : `“${text}”`;
}

function OutOfDate({ form }: { readonly form: FormAnswer }) {
  const changed = form.filled?.outOfDate ?? [];
  if (changed.length === 0) return null;
  return (
    <div className="finding questioned">
      <p>
        <span className="weight">out of date</span>
        The copy in the lot was filled before something changed. Fill it anew, read it through, and have it signed
        again.
      </p>
      <ul className="small form-changed">
        {changed.map(({ title, was, now }) => (
          <li key={title}>
            {title}: {quoted(was, 'empty')} then, {quoted(now, 'nothing')} now
          </li>
        ))}
      </ul>
    </div>
  );
}

/** How it stands in one line, and on whose word the mapping rests. */
function Summary({ form }: { readonly form: FormAnswer }) {
  const { counts, flatten, blank, basis } = form;
  const parts = [
    `${counts.filled} of ${boxes(form.boxes.length)} filled`,
    ...(counts.troubled === 0 ? [] : [`${counts.troubled} to look at`]),
    ...(counts.unmapped === 0 ? [] : [`${counts.unmapped} that nobody mapped`]),
    ...(counts.byHand === 0 ? [] : [`${counts.byHand} for your own hand`]),
  ];
  return (
    <div className="form-summary">
      <p>
        <strong>{parts.join(', ')}.</strong>{' '}
        {flatten ? 'The values become part of the page.' : 'The copy stays fillable.'}
      </p>
      <p className="small pencil">
        {blank === undefined ? '' : `Filled into a copy of “${blank.title}”; the blank stays as it came. `}
        {blank?.how === 'another issue' ? 'It looks like another issue of the form: look at every box. ' : ''}
        {basis === undefined || basis.on === 'common practice' ? '' : `Mapping: ${basisInWords(basis)}.`}
      </p>
    </div>
  );
}

function Whole({ form, wanted, onBlank }: { form: FormAnswer; wanted: FormWanted; onBlank: (to: string) => void }) {
  if (form.blank === undefined) return <NoBlank form={form} onBlank={onBlank} />;
  return (
    <div className="form-whole">
      <Summary form={form} />
      <OutOfDate form={form} />
      {form.notes.map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
      <div className="form-spread">
        <FormBoxes form={form} />
        <FormSheet form={form} wanted={wanted} />
      </div>
      <p className="errand-caution small">{form.caution}</p>
    </div>
  );
}

/** An office's form: every box with what stands in it and from where, the sheet beside, and one press to fill it. */
export function FormSlip({ wanted: first }: { readonly wanted: FormWanted }) {
  const [blank, setBlank] = useState<string>();
  const [filling, setFilling] = useState(false);
  const wanted: FormWanted = { ...first, blank };
  const asked = useAnswer('form-fields', { ...wanted });
  const form = asked.answer;
  const fill = async (): Promise<void> => {
    setFilling(true);
    const reply = await perform('fill-form', { ...wanted }, { say: filledSay, long: 'Filling the form' });
    setFilling(false);
    if (reply.ok) putAway();
  };
  const ready = form?.blank !== undefined && form.mapped && form.counts.filled > 0;
  return (
    <Slip
      title={form?.title ?? 'The office’s form'}
      open
      wide
      onClose={putAway}
      foot={
        <Button as="stamp" disabled={!ready || filling} onPress={() => void fill()}>
          {filling ? 'Filling ...' : 'Fill it'}
        </Button>
      }
    >
      <Answered of={asked}>{(answer) => <Whole form={answer} wanted={wanted} onBlank={setBlank} />}</Answered>
    </Slip>
  );
}
