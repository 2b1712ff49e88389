import type { ScreenProps } from '../screen-props.ts';

export function OfficesScreen(_props: ScreenProps) {
  return <h1>Offices</h1>;
}
