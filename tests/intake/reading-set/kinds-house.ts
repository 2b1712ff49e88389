import { address, expires, issued, type KindSpec, number, owner, parcel } from './kind-model.ts';

const cover = [
  { field: 'coverFrom', slots: ['effective'], facts: ['cover_from'] },
  { field: 'coverTo', slots: ['goodThrough'], facts: ['cover_to'] },
] as const;

export const houseKinds: readonly KindSpec[] = [
  {
    kind: 'loan-commitment',
    from: 'lender',
    titles: {
      a: ['COMMITMENT LETTER', 'LOAN APPROVAL AND COMMITMENT'],
      b: ['Construction Loan Commitment', 'Commitment to Lend'],
    },
    offices: { a: ['Construction Lending'], b: ['Residential Loans'] },
    fields: [
      number,
      issued,
      expires,
      owner,
      { field: 'loan', facts: ['loan_amount'] },
      { field: 'completed', facts: ['completed_value'] },
    ],
    prose: {
      a: [
        'Subject to the conditions of approval below, the bank will lend the amount shown on the security of a first mortgage on the land and the house to be built on it.',
      ],
      b: [
        'We are pleased to offer you construction to permanent financing. The commitment is void if the closing has not taken place by then.',
      ],
    },
    labels: {
      number: { a: ['Loan No.', 'Loan Number'], b: ['Application No.', 'Loan #'] },
      issued: { a: ['Date', 'Commitment Date'], b: ['Dated', 'Date of Commitment'] },
      expires: { a: ['Commitment Expires', 'Expiration Date'], b: ['Commitment Good Through', 'Must Close By'] },
      owner: { a: ['Borrower'], b: ['Borrower(s)', 'Borrowers'] },
    },
    numberShape: ['######', '26-######'],
    good: { days: 120, said: false },
  },
  {
    kind: 'builders-risk-binder',
    from: 'insurer',
    titles: {
      a: ["BUILDER'S RISK INSURANCE BINDER", 'BINDER - BUILDERS RISK'],
      b: ['Temporary Insurance Binder: Dwelling Under Construction', "Binder of Builder's Risk Cover"],
    },
    offices: { a: ['Underwriting Office'], b: ['Policy Services'] },
    fields: [number, ...cover, owner, address, { field: 'value', facts: ['insured_value'] }],
    prose: {
      a: [
        'This binder is a temporary insurance contract, subject to the conditions of the policy to be issued. Cover ends when the policy is issued or the binder ends, whichever is first.',
      ],
      b: [
        'Pending issue of the policy, insurance is bound for the building in course of construction as described. This binder may be cancelled by notice.',
      ],
    },
    labels: {
      number: { a: ['Binder No.', 'Binder Number'], b: ['Binder #', 'Binder'] },
      owner: { a: ['Named Insured', 'Insured'], b: ['Insured', 'Insured Name'] },
      coverFrom: { a: ['Effective Date', 'Binder Effective'], b: ['Begins', 'Cover Starts'] },
      coverTo: { a: ['Expiration Date', 'Binder Expires'], b: ['Ends', 'Cover Ends'] },
      address: { a: ['Location of Property'], b: ['Insured Location', 'Risk Location'] },
    },
    numberShape: ['B-#######', 'BR######'],
    good: { days: 30, said: false },
  },
  {
    kind: 'permit-card',
    from: 'county',
    titles: {
      a: ['BUILDING PERMIT', 'RESIDENTIAL BUILDING PERMIT'],
      b: ['Building Permit - Post on Site', 'PERMIT CARD: NEW DWELLING'],
    },
    offices: { a: ['Building Department'], b: ['Code Administration'] },
    fields: [number, issued, expires, owner, address, parcel],
    prose: {
      a: [
        'Post this card in a conspicuous place on the site. The permit becomes void if work is not begun within 180 days or is suspended for 180 days.',
      ],
      b: [
        'Keep this card at the job, visible from the road, until the certificate of occupancy has been issued. Inspections are asked for by noon of the day before.',
      ],
    },
    numberShape: ['BP26-#####', 'B-2026-####', 'RES######'],
    good: { months: 12, said: true },
  },
  {
    kind: 'contractor-licence',
    from: 'board',
    titles: {
      a: ['CONTRACTOR LICENSE', 'STATE CONTRACTOR LICENSE'],
      b: ['Licensed Residential Contractor', 'License to Engage in Contracting'],
    },
    offices: { a: ['Contractors Licensing Board'], b: ['Board of Construction Trades'] },
    fields: [
      { field: 'licence', slots: ['number'], facts: ['licence'] },
      { field: 'firm', facts: ['firm'] },
      issued,
      expires,
    ],
    prose: {
      a: [
        'The holder named above is licensed under the laws of this state. The qualifier shall notify the licensing board of a change of address within 30 days.',
      ],
      b: [
        'This certifies that the business shown has met the requirements for contracting in the classification residential. Not transferable.',
      ],
    },
    numberShape: ['RB-#####', 'EL######', 'CBC ######'],
    good: { months: 24, said: false },
  },
  {
    kind: 'liability-certificate',
    from: 'insurer',
    titles: {
      a: ['CERTIFICATE OF LIABILITY INSURANCE'],
      b: ['Certificate of General Liability Cover', 'Evidence of Liability Insurance'],
    },
    offices: { a: ['Commercial Lines'], b: ['Business Insurance'] },
    fields: [number, { field: 'firm', facts: ['firm'] }, ...cover, { field: 'issued', slots: ['issued'] }],
    prose: {
      a: [
        'This certificate is given as information only and confers no right on the certificate holder. General liability: each occurrence $1,000,000, aggregate $2,000,000.',
      ],
      b: [
        'Commercial general liability cover is in force as shown. The certificate holder will be told of cancellation as the policy provides. Each occurrence $500,000.',
      ],
    },
    labels: {
      number: { a: ['Policy Number', 'Policy No.'], b: ['Policy #', 'Policy'] },
      firm: { a: ['Insured', 'Named Insured'], b: ['Name of Insured', 'Insured Business'] },
      issued: { a: ['Certificate Date', 'Date'], b: ['Date Prepared', 'Issued On'] },
    },
    numberShape: ['GL-#######', 'CPP ######', '@@######'],
    good: { months: 12, said: false },
  },
  {
    kind: 'elevation-certificate',
    from: 'firm',
    titles: {
      a: ['ELEVATION CERTIFICATE'],
      b: ['Building Elevation Certificate', 'Surveyor’s Certificate of Building Elevations'],
    },
    offices: { a: ['Land Surveyors'], b: ['Professional Surveying'] },
    fields: [
      { field: 'address', slots: ['address'], facts: ['address'] },
      { field: 'lowestFloor', facts: ['lowest_floor'] },
      { field: 'baseFlood', facts: ['base_flood_level'] },
      { field: 'issued', slots: ['issued'] },
    ],
    prose: {
      a: [
        'Elevations are based on actual construction, taken from a benchmark of the national network. Lowest adjacent grade and highest adjacent grade are shown on the sketch.',
      ],
      b: [
        'The building elevations shown are of finished construction. Machinery serving the building stands on the platform shown in the photographs.',
      ],
    },
    labels: { issued: { a: ['Date Signed', 'Date'], b: ['Signed On', 'Date of Survey'] } },
    numberShape: ['EC-###'],
    formExpires: true,
  },
  {
    kind: 'water-test',
    from: 'firm',
    titles: {
      a: ['DRINKING WATER ANALYSIS', 'WATER ANALYSIS REPORT'],
      b: ['Laboratory Report: Potable Water', 'Bacteriological Examination of Well Water'],
    },
    offices: { a: ['Water Laboratory'], b: ['Analytical Services'] },
    fields: [
      number,
      { field: 'sampled', facts: ['sampled'] },
      { field: 'issued', slots: ['issued'] },
      address,
      { field: 'result', facts: ['result'] },
    ],
    prose: {
      a: ['Total coliform and E. coli: absent in 100 mL. Nitrate as nitrogen 1.2 mg/L, limit 10 mg/L.'],
      b: [
        'Coliform bacteria were looked for by the membrane method. Nitrate 0.8 mg/L. Lead below the reporting limit.',
      ],
    },
    labels: {
      number: { a: ['Lab No.', 'Sample ID'], b: ['Lab Number', 'Sample No.'] },
      issued: { a: ['Report Date', 'Date Reported'], b: ['Reported', 'Date of Report'] },
    },
    numberShape: ['L######', '26-#####'],
  },
  {
    kind: 'occupancy-certificate',
    from: 'county',
    titles: { a: ['CERTIFICATE OF OCCUPANCY'], b: ['Occupancy Certificate', 'CERTIFICATE OF USE AND OCCUPANCY'] },
    offices: { a: ['Building Department'], b: ['Code Administration'] },
    fields: [number, { field: 'issued', slots: ['issued'], facts: ['issued_on'] }, owner, address],
    prose: {
      a: [
        'The building was inspected and found to comply with the residential code for the use group and occupancy shown. Building permit BP25-00017 is closed.',
      ],
      b: [
        'All final inspections under the building permit have passed, and the dwelling may be occupied. Construction type VB, use group R-3.',
      ],
    },
    labels: { number: { a: ['Certificate No.', 'C.O. No.'], b: ['Certificate #', 'Certificate Number'] } },
    numberShape: ['CO-26-####', 'CO####'],
  },
  {
    kind: 'air-leakage-report',
    from: 'firm',
    titles: {
      a: ['AIR LEAKAGE TEST REPORT', 'BLOWER DOOR TEST REPORT'],
      b: ['Building Envelope Tightness Report', 'Blower Door Results'],
    },
    offices: { a: ['Energy Testing'], b: ['Home Performance Testing'] },
    fields: [
      { field: 'tested', facts: ['tested'] },
      address,
      { field: 'airChanges', facts: ['air_changes'] },
      { field: 'fanFlow', facts: ['fan_flow'] },
      { field: 'volume', facts: ['house_volume'] },
    ],
    prose: {
      a: [
        'The house was depressurized to 50 Pa with a calibrated fan, windows and exterior doors closed, dampers closed.',
      ],
      b: [
        'One fan, single point test at minus 50 pascals against outdoors. Fireplace damper shut, interior doors open.',
      ],
    },
    numberShape: ['T-###'],
  },
  {
    kind: 'framing-result',
    from: 'county',
    titles: {
      a: ['INSPECTION REPORT - FRAMING', 'FRAMING INSPECTION REPORT'],
      b: ['Field Report: Framing Inspection', 'Inspection Notice (Rough Framing)'],
    },
    offices: { a: ['Building Inspections'], b: ['Code Administration'] },
    fields: [
      number,
      { field: 'inspected', slots: ['issued'], facts: ['inspected'] },
      address,
      { field: 'result', facts: ['result'] },
    ],
    prose: {
      a: [
        'Bring the truss sheets for the next visit. Fire blocking, headers, hold-downs and nailing of sheathing were looked at.',
      ],
      b: [
        'Walls, floors and roof framing are open to view. Anchor bolts, bracing and notching of joists were checked against the plans.',
      ],
    },
    numberShape: ['BP26-#####', 'B-2026-####'],
  },
];
