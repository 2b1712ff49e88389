import type { ScreenProps } from '../screen-props.ts';
import { OnePaper } from './OnePaper.tsx';
import { PaperDrawer } from './PaperDrawer.tsx';
import './papers.css';

/** The drawer of papers, or one of them: `papers/<paper>/<edition>/<page>`. */
export function PapersScreen({ rest }: ScreenProps) {
  const [paper, edition, page] = rest;
  if (paper === undefined || paper === '') return <PaperDrawer />;
  return <OnePaper paper={paper} edition={edition === '' ? undefined : edition} page={Number(page ?? 1)} />;
}
