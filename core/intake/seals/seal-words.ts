import type { SealReading } from '../../vocabulary/seals.ts';

export const proofLimits =
  'That the bytes match proves neither a licence nor an approval: who issued the certificate, and whether it was withdrawn, was not checked.';

function who({ sort, signer, certificate, signedAt }: Told): string {
  const name = signer === undefined ? 'someone it does not name' : `"${signer}"`;
  const when =
    signedAt === undefined
      ? 'at a time it does not tell'
      : `on ${signedAt.instant.slice(0, 10)} (${signedAt.by === 'time stamp' ? 'by a time stamp' : "by the signer's own clock"})`;
  const selfMade =
    certificate?.selfIssued === true ? ' The certificate was issued by its holder; anyone can make such a one.' : '';
  return sort === 'time stamp' ? `Stamped with the time by ${name} ${when}.` : `Signed by ${name} ${when}.${selfMade}`;
}

type Told = Omit<SealReading, 'says'>;

const byBytes: Readonly<Record<SealReading['bytes'], string>> = {
  unchanged: 'The signed bytes are unchanged since.',
  changed: 'The file was changed after it was signed, or the signature is not of this file: ask for it again.',
  'not checked': 'Whether the signed bytes are unchanged can not be told here.',
};

function coverWords({ covers, laterBytes }: Told): string {
  switch (covers) {
    case 'whole file':
      return 'It covers the whole file.';
    case 'earlier state':
      return `It covers the file as it was then; ${laterBytes} bytes were added later (more signatures, filled fields, or changes).`;
    case 'parts':
      return 'It covers only parts of the file: what stands outside of them may be anything.';
  }
}

/** All that is known of a signature, in sentences for the person. */
export function sealSays(told: Told): readonly string[] {
  return [who(told), byBytes[told.bytes], coverWords(told), proofLimits];
}
