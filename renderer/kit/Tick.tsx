import type { ReactNode } from 'react';
import { CheckboxButton, CheckboxField } from 'react-aria-components/Checkbox';

export interface TickProps {
  readonly children: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

/** A box to tick. */
export function Tick({ children, checked, onChange }: TickProps) {
  return (
    <CheckboxField isSelected={checked} onChange={onChange}>
      <CheckboxButton className="tick">
        <span className="box" aria-hidden="true" />
        <span>{children}</span>
      </CheckboxButton>
    </CheckboxField>
  );
}
