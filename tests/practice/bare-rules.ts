import type { Basis, Delivery, Need, PaperKind } from '../../core/vocabulary/practice.ts';

/** Rules with nothing in them but what every rule has; a test writes over what it cares about. */

export const common: Basis = { on: 'common practice' };

export const bareKind: Omit<PaperKind, 'id' | 'title' | 'from'> = {
  facts: {},
  looksLike: [],
  clocks: [],
  madeFrom: [],
  private: false,
  basis: common,
};

export const bareNeed: Omit<Need, 'id' | 'kinds'> = {
  use: 'leave',
  copies: 1,
  form: 'either',
  sheets: [],
  seal: [],
  marks: [],
  facts: [],
  optional: false,
  basis: common,
};

/** Over the counter, with all that packets have. */
export const bareDelivery: Delivery = {
  way: 'counter',
  sets: 1,
  files: 'one file',
  untouched: false,
  cover: true,
  index: true,
  dividers: true,
  bookmarks: true,
  stamps: true,
  sealedCopy: false,
  basis: common,
};
