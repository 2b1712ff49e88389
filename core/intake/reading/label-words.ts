/** What a label may announce. */
export type Concept =
  | 'issued'
  | 'effective'
  | 'expires'
  | 'period'
  | 'number'
  | 'parcel'
  | 'address'
  | 'owner'
  | 'firm'
  | 'aside'
  | 'fact';

/** `weak` labels say it only where no other label does ("Date"); `bare` ones need a colon or a cell of their own. */
export type Strength = 'strong' | 'weak' | 'bare';

export interface LabelWords {
  readonly concept: Concept;
  readonly strength: Strength;
  readonly words: readonly string[];
}

/** Phrases in one text, parted by commas. */
export function list(text: string): readonly string[] {
  return text.split(',').map((phrase) => phrase.trim().replace(/\s+/g, ' '));
}

/**
 * The words that offices of the United States put before a value. Common practice, no source; read off what the
 * counties' own pages and the sample call them.
 */
export const labelWords: readonly LabelWords[] = [
  {
    concept: 'issued',
    strength: 'strong',
    words: list(`
      date issued, issue date, issued on, date of issue, date of issuance, issuance date, date granted,
      granted on, extension granted on, date of extension, extension date, approval date, date approved,
      approved on, date of approval, certificate date, date of certificate, letter date, date of letter,
      determination date, date of determination, determined on, date assigned, assigned on, date of
      assignment, assignment date, date recorded, recorded on, recording date, date of recording, filed for
      record, filed on, date filed, survey date, date of survey, date signed, signed on, report date, date of
      report, date reported, reported on, commitment date, date of commitment, date prepared, prepared on,
      date called in, call date, date of call, ticket date, date of evaluation, evaluation date, date issued
      by, license issued, date of permit
    `),
  },
  {
    concept: 'issued',
    strength: 'bare',
    words: list(`
      issued, granted, approved, recorded, reported, extension granted, assigned,
      determined, filed
    `),
  },
  { concept: 'issued', strength: 'weak', words: list('date, dated, taken, permit issued, permit date') },
  {
    concept: 'effective',
    strength: 'strong',
    words: list(`
      effective date, date effective, effective from, effective on, policy effective, policy effective date,
      policy eff date, policy eff, eff date, binder effective, coverage effective, in effect from, in force
      from, cover begins, coverage begins, cover starts, coverage starts, coverage start date, cover from,
      coverage from, inception date, policy inception, date of inception, effective date of policy, policy
      start date, valid from
    `),
  },
  { concept: 'effective', strength: 'bare', words: list('effective, eff, begins, starts, from, inception') },
  {
    concept: 'expires',
    strength: 'strong',
    words: list(`
      expiration date, expiry date, date of expiration, expires on, exp date, policy expiration, policy
      expiration date, policy exp date, policy exp, binder expires, ticket expires, permit expires, permit
      expires on, permit expiration date, license expires, commitment expires, commitment expires on, valid
      until, valid through, valid to, valid thru, good through, good thru, good until, commitment good
      through, not valid after, void after, expires at midnight, coverage ends, cover ends, cover to, coverage
      to, coverage expires, must close by, close by, closing deadline, update by, extended to, extended until,
      extended through, new expiration date, date of expiry, policy end date, rate lock expires, expiration
    `),
  },
  { concept: 'expires', strength: 'bare', words: list('expires, exp, ends, to, lapses, expiry, through') },
  {
    concept: 'period',
    strength: 'strong',
    words: list(`
      policy period, coverage period, period of insurance, policy term, binder period, term of policy, period
      of cover, cover period, permit period
    `),
  },
  {
    concept: 'number',
    strength: 'strong',
    words: list(`
      permit no, permit number, permit id, permit nbr, building permit no, building permit number,
      authorization no, authorization number, license no, license number, licence no, licence number, lic no,
      policy number, policy no, binder no, binder number, certificate no, certificate number, co no, ticket
      no, ticket number, file no, file number, case no, case number, letter no, report no, report number, lab
      no, lab number, laboratory no, sample id, sample no, sample number, loan no, loan number, instrument no,
      instrument number, instr no, document no, document number, doc no, recording number, recording no,
      reference no, reference number, request no, request number, application no, application number,
      determination no, zoning case, zoning case no, confirmation no, registration no, registration number,
      order no, job no, tag no, control no, credential no
    `),
  },
  {
    concept: 'number',
    strength: 'bare',
    words: list(`
      permit, license, licence, policy, binder, certificate, ticket, reference, ref, number, no, case, file,
      loan, instrument
    `),
  },
  {
    concept: 'parcel',
    strength: 'strong',
    words: list(`
      parcel no, parcel number, parcel id, parcel identification number, parcel identification no, tax parcel,
      tax parcel no, tax parcel number, tax parcel id, apn, assessor parcel, assessor parcel no, assessors
      parcel number, assessor parcel number, tax map number, tax map no, tax map, tax map parcel, map parcel,
      parcel id no, pin number, property id, folio no, folio number, tax id number, parcel pin, property
      identification number
    `),
  },
  { concept: 'parcel', strength: 'bare', words: list('parcel, pin, folio') },
  {
    concept: 'address',
    strength: 'strong',
    words: list(`
      site address, property address, job address, project address, street address, project location, address
      of property, location of property, insured location, risk location, assigned address, new address, your
      new address, 911 address, 9-1-1 address, e911 address, job site, site location, property location,
      building street address, location of risk, location of work, work address, dig site, situs address,
      address of site, address of the work, insured property, work site address, location address,
      address has been assigned, following address has been assigned, address assigned, address is assigned
    `),
  },
  {
    concept: 'address',
    strength: 'bare',
    words: list(`
      place, place insured, location, address, site, situs, property, premises, project
    `),
  },
  {
    concept: 'owner',
    strength: 'strong',
    words: list(`
      property owner, owner name, name of owner, owners name, landowner, land owner, applicant, applicant
      name, name of applicant, issued to, borrower, borrowers, grantee, named insured, name of insured,
      insured name, permittee, permit holder, building owner, owner applicant, owner of record, name of
      property owner
    `),
  },
  { concept: 'owner', strength: 'bare', words: list('owner, owners, owner 1, insured, holder, purchaser') },
  {
    concept: 'firm',
    strength: 'strong',
    words: list(`
      contractor name, insured firm, business name, firm name, company name, insured business, name of
      business, license holder, name of insured, named insured
    `),
  },
  {
    concept: 'firm',
    strength: 'bare',
    words: list('company, firm, insured, holder, business, contractor, licensee'),
  },
  {
    // Announces a value that is none of the above, and must not be taken for one.
    concept: 'aside',
    strength: 'strong',
    words: list(`
      receipt no, receipt number, invoice no, check no, fee paid, phone, telephone, fax, printed, date
      printed, print date, received, date received, received on, form, omb no, rev, revised, revision date,
      page, account no, date paid, paid, inspector, signature, date of birth, commission expires, my
      commission expires, map date, panel date, application received, fee, total, zip, grantor, lender, agent,
      producer, certificate holder, original issue date, original permit date, first issued, mailing address,
      date of next inspection, reinspection date, naic no, suite, license class, classification, limit,
      deductible, premium, title, surveyor, prepared by, issued by, approved by, date of photograph, map
      panel, panel number, community number, legal description, subdivision, deed book, book and page, state,
      county, city, email, e-mail, hours
    `),
  },
];
