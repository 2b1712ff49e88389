import { useState } from 'react';
import { savePaper } from '../state/writing.ts';
import { Button } from './Button.tsx';
import { Field } from './Field.tsx';
import { Slip } from './Slip.tsx';

export interface MoreTimeSlipProps {
  /** The paper, by its id or its edition's. */
  readonly paper: string;
  readonly title: string;
  readonly onClose: () => void;
}

/** A plain letter that asks for more time, with a reason in the owner's own words. */
export function MoreTimeSlip({ paper, title, onClose }: MoreTimeSlipProps) {
  const [words, setWords] = useState('');
  const save = async (): Promise<void> => {
    const said = words.trim() === '' ? {} : { words: words.trim() };
    await savePaper({ sort: 'extension-request', paper, ...said });
    onClose();
  };
  return (
    <Slip
      title="More time"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" onPress={() => void save()}>
          Save the letter
        </Button>
      }
    >
      <p className="slab">{title}</p>
      <Field
        label="Why you need more time, in a sentence (if you like)"
        value={words}
        onChange={setWords}
        lines
        autoFocus
        placeholder="for example: the truss yard delivers in October."
      />
      <p className="small pencil">
        The letter names the paper, its number and last good day, and asks; where they have a form of their own, theirs
        goes first. They decide, and what they grant is kept as a paper.
      </p>
    </Slip>
  );
}

/** A word to press that lays the slip over. */
export function MoreTime({ paper, title }: Omit<MoreTimeSlipProps, 'onClose'>) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button as="word" small onPress={() => setOpen(true)} label={`Write the request for more time: ${title}`}>
        Write the request for more time
      </Button>
      {open ? <MoreTimeSlip paper={paper} title={title} onClose={() => setOpen(false)} /> : null}
    </>
  );
}
