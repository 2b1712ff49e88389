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
  /** It shows and folds something that follows it. */
  readonly expanded?: boolean | undefined;
  readonly submit?: boolean | undefined;
  readonly slot?: 'close' | undefined;
}

export function Button(props: ButtonProps) {
  const { children, onPress, as = 'plain', small, disabled, label, expanded, submit, slot } = props;
  return (
    <AriaButton
      className={`button ${as}${small === true ? ' small' : ''}`}
      type={submit === true ? 'submit' : 'button'}
      isDisabled={disabled ?? false}
      {...(onPress === undefined ? {} : { onPress: () => onPress() })}
      {...(label === undefined ? {} : { 'aria-label': label })}
      {...(expanded === undefined ? {} : { 'aria-expanded': expanded })}
      {...(slot === undefined ? {} : { slot })}
    >
      {children}
    </AriaButton>
  );
}
