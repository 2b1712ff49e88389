import type { Chance } from './chance.ts';

type Mutation = (bytes: Buffer, chance: Chance, other: Buffer) => Buffer;

const numbers = [
  '0',
  '-1',
  '1',
  '7',
  '65536',
  '2147483647',
  '2147483648',
  '4294967295',
  '99999999999999999999',
  '0.00001',
];
const words = [
  'obj',
  'endobj',
  'stream',
  'endstream',
  'xref',
  'trailer',
  '<<',
  '>>',
  '[',
  ']',
  '/Kids',
  '/Parent',
  '/Length',
  '/Filter',
  '/Contents',
  '/Type',
  '/Count',
  '/Resources',
];

function spliced(bytes: Buffer, at: { readonly from: number; readonly to: number }, by: Buffer): Buffer {
  return Buffer.concat([bytes.subarray(0, at.from), by, bytes.subarray(at.to)]);
}

/** A place where one of the patterns stands. */
function placeOf(bytes: Buffer, pattern: RegExp, chance: Chance): { readonly from: number; readonly to: number } {
  const found = [...bytes.subarray(0, 200_000).toString('latin1').matchAll(pattern)];
  if (found.length === 0) return { from: 0, to: 0 };
  const match = chance.of(found);
  return { from: match.index, to: match.index + match[0].length };
}

function piece(bytes: Buffer, chance: Chance): { readonly from: number; readonly to: number } {
  const from = chance.below(bytes.length);
  return { from, to: Math.min(bytes.length, from + 1 + chance.below(Math.max(2, Math.min(400, bytes.length / 4)))) };
}

const mutations: readonly Mutation[] = [
  function turnBits(bytes, chance) {
    const made = Buffer.from(bytes);
    for (let times = 1 + chance.below(8); times > 0; times -= 1) {
      const at = chance.below(made.length);
      made[at] = (made[at] ?? 0) ^ (1 << chance.below(8));
    }
    return made;
  },
  function otherBytes(bytes, chance) {
    const made = Buffer.from(bytes);
    for (let times = 1 + chance.below(20); times > 0; times -= 1) made[chance.below(made.length)] = chance.below(256);
    return made;
  },
  (bytes, chance) => bytes.subarray(0, chance.below(bytes.length)),
  (bytes, chance) => spliced(bytes, piece(bytes, chance), Buffer.alloc(0)),
  function twice(bytes, chance) {
    const at = piece(bytes, chance);
    return spliced(bytes, { from: at.to, to: at.to }, bytes.subarray(at.from, at.to));
  },
  function zeros(bytes, chance) {
    const at = piece(bytes, chance);
    return spliced(bytes, at, Buffer.alloc(at.to - at.from));
  },
  function fromAnother(bytes, chance, other) {
    const from = piece(other, chance);
    return spliced(bytes, piece(bytes, chance), other.subarray(from.from, from.to));
  },
  (bytes, chance) => spliced(bytes, placeOf(bytes, /\d+(\.\d+)?/g, chance), Buffer.from(chance.of(numbers))),
  function otherReference(bytes, chance) {
    return spliced(bytes, placeOf(bytes, /\d+ 0 R/g, chance), Buffer.from(`${chance.below(12)} 0 R`));
  },
  function otherWord(bytes, chance) {
    const pattern = /\b(obj|endobj|stream|endstream|xref|trailer|startxref)\b|\/[A-Z][A-Za-z]+|<<|>>|\[|\]/g;
    return spliced(bytes, placeOf(bytes, pattern, chance), Buffer.from(chance.of(words)));
  },
  function withoutWord(bytes, chance) {
    const pattern = /\b(obj|endobj|stream|endstream|xref|trailer|startxref)\b|<<|>>|\[|\]|\(|\)/g;
    return spliced(bytes, placeOf(bytes, pattern, chance), Buffer.alloc(0));
  },
];

/** One to three changes to a file, as damage, a bad program or an ill will would make them. */
export function mutated(bytes: Buffer, chance: Chance, other: Buffer): Buffer {
  let made = bytes;
  for (let times = 1 + chance.below(3); times > 0 && made.length > 0; times -= 1) {
    made = chance.of(mutations)(made, chance, other);
  }
  return made;
}
