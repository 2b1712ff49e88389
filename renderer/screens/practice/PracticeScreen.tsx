import type { ScreenProps } from '../screen-props.ts';

export function PracticeScreen(_props: ScreenProps) {
  return <h1>Practice</h1>;
}
