import type { ScreenProps } from '../screen-props.ts';

export function FindScreen(_props: ScreenProps) {
  return <h1>Find</h1>;
}
