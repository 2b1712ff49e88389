import type { ScreenProps } from '../screen-props.ts';

export function TableScreen(_props: ScreenProps) {
  return <h1>Table</h1>;
}
