/** Everyone and everything in the invented lot. Nobody here exists; no county here exists. */
export const county = 'Brindlemoor County';

export const owners = {
  first: 'Hạnh Nguyễn Lindqvist',
  second: 'Tomás Lindqvist',
  both: 'Hạnh Nguyễn Lindqvist and Tomás Lindqvist',
} as const;

export const place = {
  lot: 'Lot 7, Heron Lane',
  house: '418 Heron Lane',
  shouted: '418 HERON LN',
  parcel: '041-22-0070',
  acres: '3.10',
} as const;

/** Numbers that must say the same on every paper that prints them. */
export const house = {
  heated: 1860,
  volume: 16740,
  fanFlow: 740,
  ductFlow: 61,
  completed: 424_000,
  land: 62_000,
  finishedFloor: 212.5,
  datum: 'NAVD 88',
} as const;

/** Air changes at 50 Pa, rounded as a tester prints it: flow in cfm times 60 over cubic feet. */
export const airChanges = Math.round((house.fanFlow * 60 * 100) / house.volume) / 100;

/** Duct leakage in cfm per 100 square feet of heated floor. */
export const ductRate = Math.round((house.ductFlow * 100 * 100) / house.heated) / 100;

export const firms = {
  framing: { name: 'Quillfeather Framing', trade: 'framing', licence: 'RB-20817', policy: 'LM-7710432' },
  framingAgain: { name: 'Alder and Ash Framing', trade: 'framing', licence: 'RB-21144', policy: 'SR-208814' },
  electrical: { name: 'Wrenhollow Electric', trade: 'electrical', licence: 'EL-4471', policy: 'LM-8802160' },
  plumbing: { name: 'Dovesink Plumbing', trade: 'plumbing', licence: 'PL-3096', policy: 'SR-115908' },
} as const;
export type Firm = (typeof firms)[keyof typeof firms];
