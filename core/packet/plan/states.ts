import type { Mark } from '../../typeset/marks.ts';
import type { Row } from './row.ts';

export interface ShownState {
  readonly mark: Mark;
  readonly say?: string | undefined;
}

export const stateWords: Readonly<Partial<Record<Mark, string>>> = {
  'in hand': 'in this packet',
  lapsing: 'in this packet, lapses soon',
  beside: 'beside it, untouched',
  'by hand': 'carried by hand',
  missing: 'missing',
  'to follow': 'to follow',
  'see tab': 'under an earlier tab',
};

/** "SEE TAB 3, asked for as site plan": one paper may serve two needs of different names. */
function seeTab(first: number, need: string | undefined): string {
  const asked = need === undefined ? '' : `, asked for as ${need.replaceAll('-', ' ')}`;
  return `SEE TAB ${first}${asked}`;
}

/** The mark of an index row and the words under its title. `besideName` is the untouched file's name. */
export function stateOf(row: Row, besideNames: readonly string[]): ShownState {
  const { tab } = row;
  if (tab.seeTab !== undefined) return { mark: 'see tab', say: seeTab(tab.seeTab, tab.need) };
  switch (tab.place) {
    case 'missing':
      return { mark: 'missing', say: row.expected === undefined ? 'MISSING' : `MISSING, expected ${row.expected}` };
    case 'to follow':
      return {
        mark: 'to follow',
        say: row.expected === undefined ? 'TO FOLLOW' : `TO FOLLOW, expected ${row.expected}`,
      };
    case 'by hand':
      return { mark: 'by hand', say: row.edition?.physicalOnly === true ? 'BY HAND, paper only' : 'BY HAND' };
    case 'beside': {
      const copy = row.pages.how === 'linked' ? '; reference copy inside' : '';
      return { mark: 'beside', say: `BESIDE: ${besideNames.join(', ')}${copy}` };
    }
    case 'inside':
      return row.lapsing ? { mark: 'lapsing', say: `LAPSES ${tab.goodThrough.toUpperCase()}` } : { mark: 'in hand' };
  }
}
