/** What a page's content leaves behind for whatever is drawn after it. */
export interface ContentBalance {
  /** Unclosed `q` at the end. */
  readonly openSaves: number;
  /** `Q` without a `q` before it. */
  readonly extraRestores: number;
  /** Something else stands open at the end (a string, a text object, an inline picture) or the clip was narrowed. */
  readonly odd: boolean;
}

const [space, percent, slash, backslash] = [0x20, 0x25, 0x2f, 0x5c];
const [open, close, less, greater] = [0x28, 0x29, 0x3c, 0x3e];
const [upperE, upperI] = [0x45, 0x49];

const isSpace = (byte: number) =>
  byte === 0 || byte === 9 || byte === 10 || byte === 12 || byte === 13 || byte === space;
const isDelimiter = (byte: number) =>
  byte === open ||
  byte === close ||
  byte === less ||
  byte === greater ||
  byte === 0x5b ||
  byte === 0x5d ||
  byte === 0x7b ||
  byte === 0x7d ||
  byte === slash ||
  byte === percent;

/** Position after a literal string; past the end where it is never closed. */
function afterString(bytes: Uint8Array, start: number): number {
  let depth = 0;
  for (let at = start; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (byte === backslash) at += 1;
    else if (byte === open) depth += 1;
    else if (byte === close) {
      depth -= 1;
      if (depth === 0) return at + 1;
    }
  }
  return bytes.length + 1;
}

function afterByte(bytes: Uint8Array, start: number, wanted: number): number {
  const at = bytes.indexOf(wanted, start);
  return at < 0 ? bytes.length + 1 : at + 1;
}

function afterComment(bytes: Uint8Array, start: number): number {
  let at = start;
  while (at < bytes.length && bytes[at] !== 10 && bytes[at] !== 13) at += 1;
  return at;
}

/** Picture data may hold "EI" by chance: what follows the true one reads like content. */
function readsLikeContent(bytes: Uint8Array, start: number): boolean {
  return bytes.subarray(start, start + 32).every((byte) => isSpace(byte) || (byte > space && byte < 0x7f));
}

/** Position after the `EI` that ends inline picture data (ISO 32000-1, 8.9.7). */
function afterInlinePicture(bytes: Uint8Array, start: number): number {
  for (let at = start + 1; at + 1 < bytes.length; at += 1) {
    if (bytes[at] !== upperE || bytes[at + 1] !== upperI || !isSpace(bytes[at - 1] ?? 0)) continue;
    const next = bytes[at + 2];
    if ((next === undefined || isSpace(next)) && readsLikeContent(bytes, at + 2)) return at + 2;
  }
  return bytes.length + 1;
}

/** Position after the token at `start`, which is neither space nor the end; words are given to `onWord`. */
function afterToken(bytes: Uint8Array, start: number, onWord: (from: number, to: number) => void): number {
  const byte = bytes[start] ?? 0;
  if (byte === open) return afterString(bytes, start);
  if (byte === percent) return afterComment(bytes, start);
  if (byte === less && bytes[start + 1] !== less) return afterByte(bytes, start, greater);
  if (byte === less || (byte === greater && bytes[start + 1] === greater)) return start + 2;
  let at = start + 1;
  if (isDelimiter(byte) && byte !== slash) return at;
  while (at < bytes.length && !isSpace(bytes[at] ?? 0) && !isDelimiter(bytes[at] ?? 0)) at += 1;
  if (byte !== slash) onWord(start, at);
  return at;
}

class Balance {
  depth = 0;
  extraRestores = 0;
  textObjects = 0;
  marked = 0;
  bareClip = false;
  /** The last word was `ID`: raw picture data follows. */
  #pictureData = false;

  word(word: string): void {
    if (word === 'q') this.depth += 1;
    else if (word === 'Q') this.#restore();
    else if (word === 'BT') this.textObjects += 1;
    else if (word === 'ET') this.textObjects -= 1;
    else if (word === 'BMC' || word === 'BDC') this.marked += 1;
    else if (word === 'EMC') this.marked -= 1;
    else if (word === 'ID') this.#pictureData = true;
    else if ((word === 'W' || word === 'W*') && this.depth === 0) this.bareClip = true;
  }

  takePictureData(): boolean {
    const follows = this.#pictureData;
    this.#pictureData = false;
    return follows;
  }

  #restore(): void {
    if (this.depth === 0) this.extraRestores += 1;
    else this.depth -= 1;
  }
}

/** The first letters of the operators that matter; of ten thousand operators on a drawing nearly all begin otherwise. */
const beginnings = new Set([...'qQBEIW'].map((letter) => letter.charCodeAt(0)));

/** Reads a page's whole unpacked content and counts what it leaves open. About 100 MB a second. */
export function balanceOf(bytes: Uint8Array): ContentBalance {
  const balance = new Balance();
  const onWord = (from: number, to: number) => {
    if (to - from <= 3 && beginnings.has(bytes[from] ?? 0))
      balance.word(String.fromCharCode(...bytes.subarray(from, to)));
  };
  let at = 0;
  while (at < bytes.length) {
    if (isSpace(bytes[at] ?? 0)) {
      at += 1;
      continue;
    }
    at = afterToken(bytes, at, onWord);
    if (balance.takePictureData()) at = afterInlinePicture(bytes, at);
  }
  const cutShort = at > bytes.length;
  return {
    openSaves: balance.depth,
    extraRestores: balance.extraRestores,
    odd: cutShort || balance.textObjects !== 0 || balance.marked !== 0 || balance.bareClip,
  };
}
