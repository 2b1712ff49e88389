/**
 * A first-timer's questions to the invented lot, and what the answer has to be: names, days and sums worked out by hand
 * from the story, not read off the program. Terminal and window are held to the same words.
 */

/** Framing, 16 September 2026. */
export const framing = {
  /**
   * The inspector sent framing back on 10 September, and whoever waits goes first. The septic permit has to be applied
   * for anew: issued 28 October 2024 for 18 months (28 April 2026), extended once by 90 days (27 July 2026), never again.
   */
  next: ['Framing inspection', 'Apply for the septic permit'],
  lapsed: '"Septic permit" lapsed: last good day 27 Jul 2026',
  /** Practice for septic-apply: deed, soil evaluation, two copies of the survey, and the county's photo id. */
  carry: ['Deed', 'Soil evaluation', 'Boundary survey'],
  copies: '2 copies',
  bring: 'photo id',
  /**
   * The breakdown of revision C comes to 398,400 with 5,800 kept back, the land to 62,000.
   * Agreed so far: footings 38,900 + 1,150 of rock = 40,050; framing 17,250 for the first firm and 18,600 + 1,900 for the
   * second, where 17,250 was planned: 1,350 over. Left of what was kept back: 5,800 - 1,150 - 1,900 - 1,350 = 1,400.
   * Paid: 9,800 + 21,400 + 40,050 + 14,300 + 17,250 + 58,700 + 62,000 = 223,500.
   * All lines as agreed, else as estimated: 459,000 (kept-back money left out); still to pay 459,000 - 223,500 = 235,500.
   */
  costs: { estimate: '460,400', paid: '223,500', toPay: '235,500', left: '1,400' },
  /** Draw 3: 13,150 of plumbing and 12,400 of wiring, 10 % held back: 25,550 - 2,555 = 22,995. */
  draw: '22,995',
  /** The well permit of 16 September 2025 is good for a year, its last day inclusive: today. Nothing else ends by 15 November. */
  lapses: ['Well permit'],
  lapsesDay: '16 Sep 2026',
  /** Framing was not passed and insulation not looked at; the septic system was never looked at. */
  walls: ['Framing inspection', 'Insulation inspection'],
  septicHold: 'Septic system final',
  /**
   * The agent was sent revision C and its costs on 17 April; the mortgage was recorded in March and never sent. Revision D
   * is nothing to them until it is approved.
   */
  insurer: ['Recorded mortgage, 2026-000611'],
  /** On site from 14 September, covered from 21 September: seven days, the 14th to the 20th. */
  uncovered:
    'Alder and Ash Framing (framing): no certificate of liability insurance in hand for 14 Sep 2026 through 20 Sep 2026, 7 days.',
  /** What the inspector wrote on 10 September, by number, and the revision that is not approved. */
  corrections: [
    'Trusses T2-5 and T2-6 over the hall are cut for the duct.',
    'Header over the bedroom 2 window is 2 - 2x8 with one jack.',
    'Hold-down at the north-east corner is not bolted.',
    'Fire-stopping is missing at the chase beside the bath.',
  ],
  notApproved: "revision D is newer, but Brindlemoor Permit Desk hasn't approved it: revision C counts.",
  pending:
    'House plans: revision D of 14 Sep 2026 is not approved yet by Brindlemoor Permit Desk: revision C counts on the site. Once it is approved, tell:',
  /** Everyone the story gave revision C to, the county's three sets included; and who made something from it. */
  holders: [
    'Alder and Ash Framing',
    'Quillfeather Framing',
    'Dovesink Plumbing',
    'Wrenhollow Electric',
    'Insurance agent',
    'Lender',
    'Brindlemoor Permit Desk',
  ],
  makers: ['Truss maker', 'Energy tester', 'You, the owner'],
} as const;

/** The first month, 14 April 2026: a ticket of 9 April and 15 days is good through the 24th. */
export const firstMonth = {
  next: ['Ask for the water service letter', 'Photograph the bare lot'],
  waiting: 'Soil evaluation',
  lapses: 'Utility-locate ticket',
  lapsesDay: '24 Apr 2026',
  /** Asked for on 7 April, and the health office takes two to six weeks: as late as 19 May, long after the ticket. */
  pits: '"Soil evaluation" lies with Brindlemoor Environmental Health and may take until 19 May 2026',
  /** Land 62,000 + survey 2,900 + soil pits 650 = 65,550; half the survey is paid. */
  costs: { estimate: '65,550', paid: '1,450' },
} as const;

/** The week of the final, 26 February 2027. */
export const final = {
  /** Paper DW-26-058's final letter lies with the road department since 23 February. */
  waiting: 'Driveway final',
  lies: 'with them since Tue 23 Feb 2027',
  answer: 'due by Tue 9 Mar 2027',
  missing: '"Driveway final approval" is not in hand',
  /** By last day: the policy of 20 March 2026 for a year, the temporary certificate for 30 days, the driveway's year. */
  lapses: ["Builder's risk policy", 'Temporary certificate of occupancy', 'Driveway permit'],
  lapsesDays: ['20 Mar 2027', '26 Mar 2027', '15 Apr 2027'],
  /** The county extends a driveway permit once, asked for before it lapses: by its last good day, a Thursday. */
  askBy: '15 Apr 2027',
  /** Six draws of 340,000 less a tenth: 306,000 paid, 34,000 held back; 9,800 + 9,800 to Cobblestone Air without a final waiver. */
  draw: '34,000',
  noFinalWaiver: 'Cobblestone Air',
  insurer: [
    'Photos of the finished house',
    'Termite final certificate, T-27-0094',
    'Trades final inspection result, IN-27-0288',
  ],
} as const;
