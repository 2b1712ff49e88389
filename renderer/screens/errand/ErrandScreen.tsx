import type { ScreenProps } from '../screen-props.ts';

export function ErrandScreen(_props: ScreenProps) {
  return <h1>Errand</h1>;
}
