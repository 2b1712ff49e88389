import type { ScreenProps } from '../screen-props.ts';

export function TodayScreen(_props: ScreenProps) {
  return <h1>Today</h1>;
}
