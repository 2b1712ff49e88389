import { Label } from 'react-aria-components/Label';
import { RadioButton, RadioField, RadioGroup } from 'react-aria-components/RadioGroup';
import type { PickOption } from './Pick.tsx';

export interface ChoicesProps {
  readonly label: string;
  readonly options: readonly PickOption[];
  readonly value: string | undefined;
  readonly onChange: (id: string) => void;
  /** The name is said to screen readers only: it stands above already. */
  readonly labelUnseen?: boolean | undefined;
}

/** A few choices, all in view. */
export function Choices({ label, options, value, onChange, labelUnseen }: ChoicesProps) {
  return (
    <RadioGroup className="field" value={value ?? null} onChange={onChange}>
      <Label className={labelUnseen === true ? 'unseen' : 'react-aria-Label'}>{label}</Label>
      <div className="choices">
        {options.map(({ id, title }) => (
          <RadioField key={id} value={id}>
            <RadioButton className="choice">{title}</RadioButton>
          </RadioField>
        ))}
      </div>
    </RadioGroup>
  );
}
