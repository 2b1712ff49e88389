import { address, expires, issued, type KindSpec, number, owner, parcel } from './kind-model.ts';

export const landKinds: readonly KindSpec[] = [
  {
    kind: 'septic-permit',
    from: 'county',
    titles: {
      a: ['ONSITE SEWAGE SYSTEM CONSTRUCTION AUTHORIZATION', 'SEPTIC PERMIT'],
      b: ['Permit to Construct an On-Site Wastewater System', 'PERMIT FOR SEPTIC TANK INSTALLATION'],
    },
    offices: { a: ['Environmental Health Section'], b: ['Health Department, Onsite Water Protection'] },
    fields: [number, issued, expires, owner, address, parcel, { field: 'bedrooms', facts: ['bedrooms'] }],
    prose: {
      a: [
        'This authorization is void if the site is altered or the intended use changes. The system shall be installed as drawn on the attached sketch.',
        'Keep all traffic off the drainfield area. Call before covering any part of the system.',
      ],
      b: [
        'The drain lines, tank and repair area are shown on page 2. No part of the septic system may be covered before it has been seen by this department.',
        'Grading, wells or buildings placed in the absorption field revoke this permit.',
      ],
    },
    numberShape: ['EH-26-#####', '2026-####', 'CA####'],
    good: { months: 18, said: true },
  },
  {
    kind: 'septic-extension',
    from: 'county',
    titles: {
      a: ['EXTENSION OF SEPTIC PERMIT', 'SEPTIC PERMIT EXTENSION'],
      b: ['Extension Granted: Onsite Wastewater Permit', 'Notice of Extended Septic Permit'],
    },
    offices: { a: ['Environmental Health Section'], b: ['Health Department, Onsite Water Protection'] },
    fields: [number, issued, expires, owner, parcel],
    prose: {
      a: [
        'Your request for extension of the septic permit named above was received in time. One extension is granted for each permit.',
      ],
      b: [
        'The time for installing the wastewater system is extended once. All other conditions of the first permit stand.',
      ],
    },
    labels: { issued: { a: ['Extension Granted', 'Date Issued'], b: ['Date of Extension', 'Date Granted'] } },
    numberShape: ['EH-26-#####', 'X-####'],
    good: { days: 90, said: false },
  },
  {
    kind: 'well-permit',
    from: 'county',
    titles: {
      a: ['WELL CONSTRUCTION PERMIT', 'WATER WELL PERMIT'],
      b: ['Permit to Drill a Private Well', 'Private Drinking Water Well Permit'],
    },
    offices: { a: ['Environmental Health Section'], b: ['Health Department, Private Wells'] },
    fields: [number, issued, expires, owner, address, parcel],
    prose: {
      a: [
        'The water well shall be at least 100 feet from any septic system. The driller files the well log within 30 days after completion.',
      ],
      b: [
        'Casing shall reach 20 feet below grade and be grouted. The well may not be used before a bacteriological sample has been taken.',
      ],
    },
    numberShape: ['WP-####', 'W26-####', '####-W'],
    good: { months: 12, said: true },
  },
  {
    kind: 'driveway-permit',
    from: 'county',
    titles: {
      a: ['DRIVEWAY PERMIT', 'ROAD ACCESS PERMIT'],
      b: ['Permit to Connect a Driveway to a County Road', 'Right-of-Way Entrance Permit'],
    },
    offices: { a: ['Road Department'], b: ['Public Works, Highway Division'] },
    fields: [number, issued, expires, owner, parcel],
    prose: {
      a: [
        'A culvert of at least 15 inches is required where the driveway crosses the ditch. The entrance shall meet the road at a right angle.',
      ],
      b: [
        'Work inside the right of way is done at the holder’s risk. The culvert pipe and the apron are inspected before the house is occupied.',
      ],
    },
    numberShape: ['DW-26-###', 'RD####', 'A-#####'],
    good: { months: 12, said: true },
  },
  {
    kind: 'deed',
    from: 'county',
    titles: { a: ['WARRANTY DEED', 'GENERAL WARRANTY DEED'], b: ['Quitclaim Deed', 'SPECIAL WARRANTY DEED'] },
    offices: { a: ['Register of Deeds'], b: ['Recorder of Deeds'] },
    fields: [
      { field: 'number', slots: ['number'] },
      { field: 'issued', slots: ['issued'] },
      { ...owner, field: 'owner' },
      parcel,
    ],
    prose: {
      a: [
        'The grantor, for ten dollars and other valuable consideration, conveys to the grantee all that tract lying in {county}, to have and to hold in fee simple forever.',
        'Being the same land described in a plat recorded among the land records of this county.',
      ],
      b: [
        'Know all by these presents that the grantor gives, grants and releases to the grantee the land described below, with all rights and appurtenances thereto.',
        'Witness the hand and seal of the grantor on the day first written above.',
      ],
    },
    labels: {
      number: { a: ['Instrument No.', 'Document Number'], b: ['Instr. #', 'Recording Number'] },
      issued: { a: ['Recorded', 'Date Recorded'], b: ['Recording Date', 'Filed for Record'] },
      owner: { a: ['Grantee'], b: ['Grantee'] },
    },
    numberShape: ['2026-######', '##########'],
  },
  {
    kind: 'soil-evaluation',
    from: 'county',
    titles: {
      a: ['SOIL EVALUATION REPORT', 'PERCOLATION TEST RESULTS'],
      b: ['Report of Perc Test', 'Site and Soil Evaluation for Wastewater'],
    },
    offices: { a: ['Environmental Health Section'], b: ['Health Department, Onsite Water Protection'] },
    fields: [
      number,
      { field: 'tested', slots: ['issued'] },
      parcel,
      { field: 'bedrooms', facts: ['bedrooms'] },
      { field: 'rate', facts: ['rate'] },
    ],
    prose: {
      a: [
        'Soil borings show a sandy clay loam to 48 inches. No seasonal high water table was met. The rate is given in minutes per inch.',
      ],
      b: [
        'Three holes were presoaked and read every 30 minutes. The slowest hole governs. Soil texture: clay loam over weathered rock.',
      ],
    },
    labels: {
      number: { a: ['Report No.', 'File No.'], b: ['File Number', 'Report #'] },
      tested: { a: ['Date of Evaluation', 'Test Date'], b: ['Tested On', 'Date of Test'] },
    },
    numberShape: ['SE-####', '26-S-###'],
  },
  {
    kind: 'flood-determination',
    from: 'county',
    titles: {
      a: ['FLOOD ZONE DETERMINATION', 'FLOODPLAIN DEVELOPMENT DETERMINATION'],
      b: ['Floodplain Administrator’s Letter of Flood Zone', 'Determination of Special Flood Hazard'],
    },
    offices: { a: ['Floodplain Administrator'], b: ['Floodplain Management Office'] },
    fields: [number, issued, address, parcel, { field: 'zone', facts: ['flood_zone'] }],
    prose: {
      a: [
        'The parcel was located on the flood insurance rate map in effect on the date of this letter. The determination is made for building purposes.',
      ],
      b: [
        'The structure’s site was compared with the effective flood insurance rate map panel. A change of the map may change this answer.',
      ],
    },
    labels: {
      number: { a: ['Case No.', 'File No.'], b: ['Determination No.', 'Reference'] },
      issued: { a: ['Date of Determination', 'Date'], b: ['Letter Date', 'Determined On'] },
    },
    numberShape: ['FD-####', 'FP26-###'],
  },
  {
    kind: 'zoning-letter',
    from: 'county',
    titles: {
      a: ['ZONING VERIFICATION LETTER', 'ZONING COMPLIANCE LETTER'],
      b: ['Certificate of Zoning Compliance', 'Zoning Certification'],
    },
    offices: { a: ['Planning and Zoning'], b: ['Land Use Office'] },
    fields: [number, issued, address, parcel],
    prose: {
      a: [
        'A single family dwelling is a permitted use in the district. Setbacks: front 50 feet, side 20 feet, rear 40 feet.',
      ],
      b: [
        'The proposed dwelling is a use allowed by right in the AG-2 district, provided that the building setback lines are kept.',
      ],
    },
    labels: {
      number: { a: ['Letter No.', 'File No.'], b: ['Zoning Case', 'Certificate No.'] },
      issued: { a: ['Date', 'Date Issued'], b: ['Dated', 'Date of Letter'] },
    },
    numberShape: ['ZV-####', 'Z26-###'],
  },
  {
    kind: 'address-letter',
    from: 'county',
    titles: {
      a: ['ADDRESS ASSIGNMENT', '9-1-1 ADDRESS ASSIGNMENT LETTER'],
      b: ['Notice of New Street Address', 'E-911 Addressing Confirmation'],
    },
    offices: { a: ['Addressing Office'], b: ['Emergency Services, Addressing'] },
    fields: [number, issued, address, parcel],
    prose: {
      a: [
        'The number shall be posted at the driveway so that it can be read from both directions. It belongs to the place where the drive meets the road.',
      ],
      b: [
        'Please display the house number in figures 4 inches high. Tell your mail carrier, power company and lender of the newly assigned address.',
      ],
    },
    labels: {
      number: { a: ['File No.'], b: ['Request No.'] },
      issued: { a: ['Date Assigned', 'Date'], b: ['Assigned On', 'Date of Assignment'] },
      address: { a: ['Assigned Address', 'New Address'], b: ['Your New Address', '911 Address'] },
    },
    numberShape: ['AD-#####', '911-####'],
  },
  {
    kind: 'locate-ticket',
    from: 'firm',
    titles: {
      a: ['UTILITY LOCATE TICKET', 'LOCATE REQUEST TICKET'],
      b: ['Notice of Intent to Excavate', 'Underground Facilities Dig Ticket'],
    },
    offices: { a: ['Underground Locating Center'], b: ['Dig Notification Center'] },
    fields: [
      { field: 'number', slots: ['number'] },
      issued,
      { field: 'workFrom', slots: ['effective'], facts: ['work_from'] },
      expires,
      address,
    ],
    prose: {
      a: [
        'Wait for a positive response from every member before digging. Marks are kept up by the excavator. Hand dig within 24 inches of any mark.',
      ],
      b: [
        'All member utilities have been notified: water, power, telephone. Excavation within the tolerance zone is by hand only.',
      ],
    },
    labels: {
      number: { a: ['Ticket No.', 'Ticket Number'], b: ['Ticket', 'Ticket #'] },
      issued: { a: ['Date Called In', 'Taken'], b: ['Date of Call', 'Call Date'] },
      expires: { a: ['Ticket Expires', 'Expires'], b: ['Update By', 'Good Through', 'Valid Until'] },
    },
    numberShape: ['##########', 'A########'],
    good: { days: 14, said: false },
  },
];
