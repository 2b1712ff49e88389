import { Button } from '../../kit/Button.tsx';

export interface SuggestedProps {
  /** What was read, in words: "Septic permit". Nothing is shown where there is none, or where it is taken already. */
  readonly words: string | undefined;
  readonly taken: boolean;
  /** Where it was read: "page 1". */
  readonly from?: string | undefined;
  readonly onTake: () => void;
}

/** A suggestion beside its field: read off the page, never filled in by itself. */
export function Suggested({ words, taken, from, onTake }: SuggestedProps) {
  if (words === undefined || taken) return null;
  return (
    <p className="table-suggested small">
      Read on {from ?? 'the page'}: <strong>{words}</strong>{' '}
      <Button as="word" small onPress={onTake} label={`Take it: ${words}`}>
        take it
      </Button>
    </p>
  );
}
