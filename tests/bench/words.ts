/** A repeatable stream of numbers in [0, 1): mulberry32, from memory. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const syllables = ['sep', 'tic', 'per', 'mit', 'lot', 'heron', 'lane', 'sur', 'vey', 'flood', 'plain', 'wa', 'ter'];

/** Words are drawn as in a language: a few stand on nearly every page, most on hardly any (1/rank). */
export function writer(seed: number): () => string {
  const next = numbers(seed);
  const pick = (): string => syllables[Math.floor(next() * syllables.length)] ?? '';
  const words = Array.from({ length: 6000 }, (_, i) => `${pick()}${pick()}${i % 3 === 0 ? pick() : ''}${i % 97}`);
  const page = Array.from({ length: 220 }, () => words[Math.floor(words.length ** next()) - 1] ?? '');
  return () => {
    for (let i = 0; i < 60; i += 1) {
      page[Math.floor(next() * page.length)] = words[Math.floor(words.length ** next()) - 1] ?? '';
    }
    return `${page.join(' ')} parcel 0${Math.floor(next() * 90) + 10}-22-${1000 + Math.floor(next() * 9000)}`;
  };
}

/** What a person might type: words, two words, beginnings, numbers, and what makes no sense. */
export function queries(): readonly string[] {
  const write = writer(7);
  const words = Array.from({ length: 40 }, () => write().split(' ')).flatMap((page) => page.slice(0, 12));
  const single = words.slice(0, 200);
  const pairs = words.slice(200, 300).map((word, i) => `${word} ${words[i]}`);
  const starts = words.slice(300, 400).map((word) => word.slice(0, 3));
  return [...single, ...pairs, ...starts, '041-22-0070', '"heronlane', 'p', 'se', 'lot AND (', '0412'];
}
