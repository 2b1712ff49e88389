import type { ScreenProps } from '../screen-props.ts';

export function HistoryScreen(_props: ScreenProps) {
  return <h1>History</h1>;
}
