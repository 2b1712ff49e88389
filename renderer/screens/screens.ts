import type { ComponentType } from 'react';
import { CostsScreen } from './costs/CostsScreen.tsx';
import { ErrandScreen } from './errand/ErrandScreen.tsx';
import { FindScreen } from './find/FindScreen.tsx';
import { HistoryScreen } from './history/HistoryScreen.tsx';
import { InspectionsScreen } from './inspections/InspectionsScreen.tsx';
import { LotScreen } from './lot/LotScreen.tsx';
import { OfficesScreen } from './offices/OfficesScreen.tsx';
import { PapersScreen } from './papers/PapersScreen.tsx';
import { PracticeScreen } from './practice/PracticeScreen.tsx';
import { RecordsScreen } from './records/RecordsScreen.tsx';
import type { ScreenProps } from './screen-props.ts';
import { TableScreen } from './table/TableScreen.tsx';
import { TodayScreen } from './today/TodayScreen.tsx';
import { TradesScreen } from './trades/TradesScreen.tsx';
import { WayScreen } from './way/WayScreen.tsx';

export interface ScreenEntry {
  readonly id: string;
  readonly title: string;
  /** Stands in the contents; the others are reached from within. */
  readonly listed: boolean;
  readonly show: ComponentType<ScreenProps>;
}

/** Every screen once: a new one is a folder and a line here. */
export const screens: readonly ScreenEntry[] = [
  { id: 'today', title: 'Today', listed: true, show: TodayScreen },
  { id: 'way', title: 'The way', listed: true, show: WayScreen },
  { id: 'errand', title: 'Errand', listed: false, show: ErrandScreen },
  { id: 'papers', title: 'Papers', listed: true, show: PapersScreen },
  { id: 'table', title: 'On the table', listed: true, show: TableScreen },
  { id: 'records', title: 'Photos and receipts', listed: true, show: RecordsScreen },
  { id: 'lot', title: 'Lot', listed: true, show: LotScreen },
  { id: 'trades', title: 'Trades', listed: true, show: TradesScreen },
  { id: 'costs', title: 'Costs and draws', listed: true, show: CostsScreen },
  { id: 'inspections', title: 'Inspections', listed: true, show: InspectionsScreen },
  { id: 'offices', title: 'With the offices', listed: true, show: OfficesScreen },
  { id: 'practice', title: 'Local practice', listed: true, show: PracticeScreen },
  { id: 'history', title: 'What was done', listed: true, show: HistoryScreen },
  { id: 'find', title: 'Find', listed: false, show: FindScreen },
];

const [first] = screens;

export function screenNamed(id: string): ScreenEntry {
  const found = screens.find((each) => each.id === id) ?? first;
  if (found === undefined) throw new Error('The window has no screens.');
  return found;
}
