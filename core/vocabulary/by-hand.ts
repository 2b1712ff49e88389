/**
 * Boxes that a person fills with their own hand: by the words in their name or hint. A signature, an initial, what a
 * notary writes, the day somebody signs. Whole words only: "design" is no signature.
 */
const hands: readonly (readonly [words: readonly string[], what: string])[] = [
  [['sign', 'signed', 'signature', 'signatures', 'signer', 'sig', 'signatory'], 'a signature, or what goes with one'],
  [['initial', 'initials', 'initialed', 'initialled'], 'initials'],
  [
    ['notary', 'notaries', 'notarial', 'notarized', 'notarised', 'jurat', 'sworn', 'affiant', 'subscribed'],
    'the notary’s',
  ],
  [['witness', 'witnesses', 'witnessed'], 'a witness’s'],
];

/** "OwnerSignatureDate_2[0]" in plain words: owner signature date. */
function wordsOf(name: string): readonly string[] {
  return name
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '');
}

/**
 * Why a box is never filled by us, going by its name or hint; undefined where nothing speaks against it.
 * `leave` in a mapping is the way out for a name that only looks like one of these.
 */
export function neverByUs(name: string): string | undefined {
  const words = wordsOf(name);
  return hands.find(([of]) => of.some((word) => words.includes(word)))?.[1];
}
