/**
 * How labels are worded. Half A was looked at while the reading rules were written; half B is only ever measured.
 */
export type Half = 'a' | 'b';

export type Field =
  | 'number'
  | 'issued'
  | 'effective'
  | 'expires'
  | 'parcel'
  | 'address'
  | 'owner'
  | 'bedrooms'
  | 'firm'
  | 'coverFrom'
  | 'coverTo'
  | 'value'
  | 'inspected'
  | 'result'
  | 'tested'
  | 'licence'
  | 'workFrom'
  | 'sampled'
  | 'treated'
  | 'through'
  | 'lowestFloor'
  | 'baseFlood'
  | 'zone'
  | 'airChanges'
  | 'fanFlow'
  | 'volume'
  | 'loan'
  | 'completed'
  | 'acreage'
  | 'rate';

export const labels: Readonly<Record<Half, Readonly<Record<Field, readonly string[]>>>> = {
  a: {
    number: ['Permit No.', 'Permit Number', 'Permit #'],
    issued: ['Date Issued', 'Issue Date', 'Issued'],
    effective: ['Effective Date', 'Effective'],
    expires: ['Expiration Date', 'Expires', 'Expires On'],
    parcel: ['Parcel No.', 'Parcel ID', 'Tax Parcel', 'APN'],
    address: ['Site Address', 'Property Address', 'Job Address'],
    owner: ['Owner', 'Property Owner', 'Applicant'],
    bedrooms: ['No. of Bedrooms', 'Bedrooms'],
    firm: ['Contractor', 'Business Name'],
    coverFrom: ['Policy Effective', 'Policy Eff. Date'],
    coverTo: ['Policy Expiration', 'Policy Exp. Date'],
    value: ['Limit of Insurance', 'Amount of Insurance'],
    inspected: ['Inspection Date', 'Date Inspected'],
    result: ['Result', 'Inspection Result'],
    tested: ['Test Date', 'Date of Test'],
    licence: ['License No.', 'License Number'],
    workFrom: ['Work to Begin', 'Start Date'],
    sampled: ['Date Sampled', 'Sample Date'],
    treated: ['Date of Treatment', 'Treatment Date'],
    through: ['Through Date', 'For Work Through'],
    lowestFloor: ['Lowest Floor Elevation', 'Top of Bottom Floor'],
    baseFlood: ['Base Flood Elevation', 'BFE'],
    zone: ['Flood Zone', 'Zone'],
    airChanges: ['ACH50', 'Air Changes per Hour at 50 Pa'],
    fanFlow: ['CFM50', 'Fan Flow'],
    volume: ['House Volume', 'Conditioned Volume'],
    loan: ['Loan Amount', 'Amount of Loan'],
    completed: ['Completed Value', 'Appraised Value'],
    acreage: ['Acreage', 'Area in Acres'],
    rate: ['Percolation Rate', 'Perc Rate'],
  },
  b: {
    number: ['Permit', 'Permit ID', 'Permit Nbr'],
    issued: ['Date of Issue', 'Issued On', 'Date Granted', 'Approval Date'],
    effective: ['Effective From', 'In Effect From', 'Begins'],
    expires: ['Valid Until', 'Good Through', 'Date of Expiration', 'Not Valid After', 'Exp. Date'],
    parcel: ['PIN', 'Parcel Identification Number', 'Assessor Parcel', 'Tax Map Number'],
    address: ['Location', 'Project Location', 'Address of Property', 'Street Address'],
    owner: ['Owner Name', 'Name of Owner', 'Issued To', 'Landowner'],
    bedrooms: ['Number of Bedrooms', 'Bedroom Count', 'BR'],
    firm: ['Company', 'Firm Name', 'Licensee'],
    coverFrom: ['Coverage Begins', 'Eff.', 'From'],
    coverTo: ['Coverage Ends', 'Exp.', 'To'],
    value: ['Dwelling Limit', 'Insured Value', 'Coverage Amount'],
    inspected: ['Inspected On', 'Date of Inspection', 'Visit Date'],
    result: ['Outcome', 'Disposition'],
    tested: ['Tested On', 'Date Tested'],
    licence: ['Lic. #', 'License', 'Certificate No.'],
    workFrom: ['Excavation Start', 'Work Start Date', 'Legal Start Date'],
    sampled: ['Collected', 'Collection Date', 'Sampled On'],
    treated: ['Treated On', 'Application Date', 'Date Applied'],
    through: ['Work Performed Through', 'Period Ending'],
    lowestFloor: ['Elevation of Lowest Floor', 'Finished Floor Elevation'],
    baseFlood: ['Base Flood Level', 'Elevation of Base Flood'],
    zone: ['FIRM Zone', 'Zone Designation'],
    airChanges: ['Measured ACH50', 'Air Changes/Hour'],
    fanFlow: ['Measured CFM50', 'Airflow at 50 Pa'],
    volume: ['Building Volume', 'Volume of House'],
    loan: ['Principal Amount', 'Commitment Amount'],
    completed: ['As-Completed Value', 'Value When Completed'],
    acreage: ['Acres', 'Tract Size'],
    rate: ['Rate', 'Average Percolation Rate'],
  },
};
