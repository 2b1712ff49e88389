/**
 * Boxes that a person fills with their own hand: by the words in their name or hint. A signature, an initial, what a
 * notary writes, the day somebody signs. Names of boxes run words together, so stems count within a word where no
 * other word holds them: "ownersignature" is one, "design", "assigned" and "commissioning" are not.
 */
const hands: readonly (readonly [says: RegExp, what: string])[] = [
  [
    /sigs?\b|\bsig(?:date|block|line)|signat(?:ure|or)|(?<!de|as|re|con)sign(?:s?\b|ed|er|ing|date|here)/,
    'a signature, or what goes with one',
  ],
  [/initial(?:s|ed|led)?\b/, 'initials'],
  [
    /notar(?:y|ies|ial|i[sz]e|i[sz]ing)|jurat|affiant|\bsworn|\bsubscribed\b|\battest|attested|commission(?:exp|no|num)/,
    'the notary’s',
  ],
  // A notary's, unless the word before says whose else.
  [/(?<!\b(?:planning|zoning|utilit(?:y|ies)|services?|county|historical) )\bcommissions?\b/, 'the notary’s'],
  [/witness/, 'a witness’s'],
];

/** Stems that can't come about by pushing two other words together: "SIGnature" is split in the wrong place. */
const anywhere = /signature|signatory|witness|affiant/;

/** "OwnerSignatureDate_2[0]", "DLSignature" in plain words: "owner signature date", "dl signature". */
export function wordsIn(name: string): string {
  return name
    .normalize('NFKC')
    .replace(/\p{Cf}/gu, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/(\p{Lu})(?=\p{Lu}\p{Ll})/gu, '$1 ')
    .toLowerCase()
    .replace(/[^\p{L}]+/gu, ' ')
    .trim();
}

/**
 * Why a box is never filled by us, going by its name or hint; undefined where nothing speaks against it.
 * `leave` in a mapping is the way out for a name that only looks like one of these.
 */
export function neverByUs(name: string): string | undefined {
  const words = wordsIn(name);
  const found = hands.find(([says]) => says.test(words))?.[1];
  return found ?? (anywhere.test(words.replaceAll(' ', '')) ? 'a signature, or what goes with one' : undefined);
}
