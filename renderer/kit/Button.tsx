import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components/Button';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress?: (() => void) | undefined;
  /** `stamp`: the one thing this place is for. `word`: reads like a link, acts in place. */
  readonly as?: 'stamp' | 'plain' | 'word' | undefined;
  readonly small?: boolean | undefined;
  readonly disabled?: boolean | undefined;
  readonly label?: string | undefined;
  readonly submit?: boolean | undefined;
  readonly slot?: 'close' | undefined;
}

export function Button({ children, onPress, as = 'plain', small, disabled, label, submit, slot }: ButtonProps) {
  return (
    <AriaButton
      className={`button ${as}${small === true ? ' small' : ''}`}
      type={submit === true ? 'submit' : 'button'}
      isDisabled={disabled ?? false}
      {...(onPress === undefined ? {} : { onPress: () => onPress() })}
      {...(label === undefined ? {} : { 'aria-label': label })}
      {...(slot === undefined ? {} : { slot })}
    >
      {children}
    </AriaButton>
  );
}
