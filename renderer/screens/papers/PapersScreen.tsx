import type { ScreenProps } from '../screen-props.ts';

export function PapersScreen(_props: ScreenProps) {
  return <h1>Papers</h1>;
}
