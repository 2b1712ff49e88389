import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import type { Answered } from '../../state/asked.ts';
import type { Draft } from './table-state.ts';

interface PasswordFieldProps {
  /** What came of keeping it. */
  readonly trouble: ErrorShape | undefined;
  readonly reading: Answered<'read'>;
  readonly draft: Draft;
  readonly onDraft: (change: Partial<Draft>) => void;
}

/** Asked for as soon as a locked file can't be read; once it opens, its pages are shown and read like any other's. */
export function PasswordField({ trouble, reading, draft, onDraft }: PasswordFieldProps) {
  const { error, waiting } = reading;
  const shut = error?.asks === 'password' || trouble?.asks === 'password';
  if (!shut && (draft.password === undefined || reading.answer !== undefined)) return null;
  const { password = '', opened } = draft;
  const wrong = shut && opened !== undefined && opened === password ? error?.message : undefined;
  return (
    <form
      className="table-password"
      onSubmit={(event) => {
        event.preventDefault();
        if (password !== '') onDraft({ opened: password });
      }}
    >
      <Field
        label="The password it opens with"
        value={password}
        onChange={(said) => onDraft({ password: said })}
        wrong={wrong}
        hint="Used once to open it; it is written nowhere"
      />
      <Button small submit disabled={password === '' || waiting}>
        {waiting && opened !== undefined ? 'Opening ...' : 'Open it'}
      </Button>
    </form>
  );
}
