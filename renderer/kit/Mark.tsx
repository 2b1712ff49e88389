import type { ReactNode } from 'react';
import type { ErrandState, PaperState } from '../../core/vocabulary/finding.ts';

export type MarkWord = PaperState | ErrandState | 'disagree';
type Tone = 'green' | 'ochre' | 'red' | 'pencil' | 'violet';

interface Shape {
  readonly tone: Tone;
  readonly draw: ReactNode;
}

const disc = <circle cx="8" cy="8" r="5.5" fill="currentColor" />;
const ring = <circle cx="8" cy="8" r="5.2" fill="none" stroke="currentColor" strokeWidth="1.6" />;
const half = (
  <>
    <path d="M8 2.5a5.5 5.5 0 0 0 0 11z" fill="currentColor" />
    {ring}
  </>
);
const dogEar = <path d="M3 2.5h7l3 3v8H3zM10 2.5v3h3" fill="none" stroke="currentColor" strokeWidth="1.6" />;
const struckCard = (
  <path d="M2.5 3.5h11v9h-11zM1 6.2l14-1.4M1 11.2l14-1.4" fill="none" stroke="currentColor" strokeWidth="1.6" />
);
const triangle = <path d="M8 2.5 14 13.5H2z" fill="none" stroke="currentColor" strokeWidth="1.6" />;
const brokenRing = (
  <circle cx="8" cy="8" r="5.2" fill="none" stroke="currentColor" strokeWidth="1.6" strokeDasharray="5 3" />
);
const brackets = <path d="M6.5 3H3.5v10h3M9.5 3h3v10h-3" fill="none" stroke="currentColor" strokeWidth="1.6" />;
const dash = <path d="M1.5 8h13" stroke="currentColor" strokeWidth="1.8" />;
const gate = <path d="M3 2v12M13 2v12M3 6h10M3 10h10" fill="none" stroke="currentColor" strokeWidth="1.5" />;
const arrow = <path d="M2 8h10M8 3.5 12.5 8 8 12.5" fill="none" stroke="currentColor" strokeWidth="1.8" />;
const turned = <path d="M13 12V6.5H3.5M7 3 3.5 6.5 7 10" fill="none" stroke="currentColor" strokeWidth="1.8" />;
const tickDisc = <path d="M3 8.5 6.5 12 13 4.5" fill="none" stroke="currentColor" strokeWidth="2" />;

const shapes: Readonly<Record<MarkWord, Shape>> = {
  'in hand': { tone: 'green', draw: disc },
  'not asked for': { tone: 'pencil', draw: ring },
  awaited: { tone: 'violet', draw: half },
  lapsing: { tone: 'ochre', draw: dogEar },
  lapsed: { tone: 'red', draw: struckCard },
  replaced: { tone: 'pencil', draw: triangle },
  unreadable: { tone: 'red', draw: brokenRing },
  disagree: { tone: 'red', draw: brackets },
  "doesn't apply": { tone: 'pencil', draw: dash },
  "can't go yet": { tone: 'pencil', draw: gate },
  'can go': { tone: 'violet', draw: arrow },
  'left with them': { tone: 'violet', draw: half },
  'sent back': { tone: 'red', draw: turned },
  settled: { tone: 'green', draw: tickDisc },
};

/** Every word that has a mark, in the order the legend shows them. */
export const markWords: readonly MarkWord[] = [
  'in hand',
  'awaited',
  'not asked for',
  'lapsing',
  'lapsed',
  'replaced',
  'unreadable',
  'disagree',
  "doesn't apply",
  'can go',
  "can't go yet",
  'left with them',
  'sent back',
  'settled',
];

export interface MarkProps {
  readonly word: MarkWord;
  /** Said instead of the bare word: "lapses 14 Mar", "replaced, 2 newer". */
  readonly say?: string | undefined;
  /** Grey: it is so, and nobody need mind. */
  readonly quiet?: boolean | undefined;
}

/** A state as shape and word. */
export function Mark({ word, say, quiet = false }: MarkProps) {
  const { tone, draw } = shapes[word];
  return (
    <span className={`mark ${quiet ? 'pencil' : tone}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        {draw}
      </svg>
      {say ?? word}
    </span>
  );
}
