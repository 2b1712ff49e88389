import type { ScreenProps } from '../screen-props.ts';

export function WayScreen(_props: ScreenProps) {
  return <h1>Way</h1>;
}
