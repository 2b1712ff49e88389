/** Who stands behind a signature, as the certificate says; nobody here checked who issued it. */
export interface SealCertificate {
  /** "CN=..., O=..., C=..." */
  readonly subject: string;
  readonly issuer: string;
  /** Hex. */
  readonly serial: string;
  /** Instants, ISO 8601. */
  readonly from: string;
  readonly until: string;
  /** Issuer and subject are the same: anyone can make such a certificate. */
  readonly selfIssued: boolean;
}

/** What can be said of one digital signature in a PDF (ISO 32000-1, 12.8) without trusting anyone. */
export interface SealReading {
  readonly sort: 'signature' | 'time stamp';
  /** SubFilter: adbe.pkcs7.detached, ETSI.CAdES.detached ... */
  readonly format: string;
  /** Name in the certificate. */
  readonly signer?: string | undefined;
  readonly certificate?: SealCertificate | undefined;
  /** What the file writes beside the signature; anyone could have written it. */
  readonly reason?: string | undefined;
  readonly signedAt?: { readonly instant: string; readonly by: 'time stamp' | "signer's clock" } | undefined;
  /** Whether the bytes it covers still are those that were signed. */
  readonly bytes: 'unchanged' | 'changed' | 'not checked';
  /** `earlier state`: all of the file as it was then; more was added since. `parts`: not even that. */
  readonly covers: 'whole file' | 'earlier state' | 'parts';
  /** Bytes that were added after the part it covers. */
  readonly laterBytes: number;
  /** All of it in whole sentences. */
  readonly says: readonly string[];
}
