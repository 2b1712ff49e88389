import { FieldError } from 'react-aria-components/FieldError';
import { Input } from 'react-aria-components/Input';
import { Label } from 'react-aria-components/Label';
import { Text } from 'react-aria-components/Text';
import { TextArea } from 'react-aria-components/TextArea';
import { TextField } from 'react-aria-components/TextField';

export interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string | undefined;
  /** What is wrong with what was typed; shown in place. */
  readonly wrong?: string | undefined;
  readonly lines?: boolean | undefined;
  readonly placeholder?: string | undefined;
  readonly autoFocus?: boolean | undefined;
  readonly required?: boolean | undefined;
  readonly onBlur?: (() => void) | undefined;
}

/** One line (or several) of text with its name above it. */
export function Field(props: FieldProps) {
  const { label, value, onChange, hint, wrong, lines, placeholder, autoFocus, required, onBlur } = props;
  const place = placeholder === undefined ? {} : { placeholder };
  return (
    <TextField
      className="field"
      value={value}
      onChange={onChange}
      isInvalid={wrong !== undefined}
      autoFocus={autoFocus ?? false}
      isRequired={required ?? false}
      {...(onBlur === undefined ? {} : { onBlur: () => onBlur() })}
    >
      <Label>{label}</Label>
      {lines === true ? <TextArea {...place} /> : <Input {...place} />}
      {hint === undefined ? null : (
        <Text slot="description" className="hint">
          {hint}
        </Text>
      )}
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
