import type { ScreenProps } from '../screen-props.ts';

export function LotScreen(_props: ScreenProps) {
  return <h1>Lot</h1>;
}
