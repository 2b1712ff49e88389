import type { Delivery, DeliveryWay } from '../vocabulary/practice.ts';
import { Fields } from './fields.ts';
import { readBasis } from './read-basis.ts';
import type { Scope } from './scope.ts';
import { bytesOf } from './values.ts';
import type { Tree } from './yaml-tree.ts';

const ways = ['counter', 'upload', 'e-mail', 'site binder', 'lender'] as const satisfies readonly DeliveryWay[];

type Furniture = Pick<
  Delivery,
  'files' | 'untouched' | 'cover' | 'index' | 'dividers' | 'bookmarks' | 'stamps' | 'sealedCopy'
>;

const furnished: Furniture = {
  files: 'one file',
  untouched: false,
  cover: true,
  index: true,
  dividers: true,
  bookmarks: true,
  stamps: true,
  sealedCopy: true,
};

/** What each way of handing over has when the rule says no more: an upload portal wants the bare papers. */
const usual: Readonly<Record<DeliveryWay, Furniture>> = {
  counter: furnished,
  'site binder': furnished,
  'e-mail': { ...furnished, dividers: false },
  lender: { ...furnished, dividers: false },
  upload: {
    files: 'separate files',
    untouched: true,
    cover: false,
    index: false,
    dividers: false,
    bookmarks: false,
    stamps: false,
    sealedCopy: false,
  },
};

const namePieces = ['n', 'tab', 'paper', 'number', 'day', 'lot'];

function readName(fields: Fields): string | undefined {
  const name = fields.text('file_name');
  for (const [, piece] of name?.matchAll(/\{([^}]*)\}/g) ?? []) {
    if (namePieces.includes(piece ?? '')) continue;
    const known = namePieces.map((one) => `{${one}}`).join(' ');
    fields.scope.problems.add(fields.at, `"file_name" of ${fields.about} knows only ${known}, not {${piece}}.`);
  }
  return name;
}

/** How the packet is handed over; `deliver: counter` alone takes what is usual for that way. */
export function readDelivery(tree: Tree | undefined, errand: string, scope: Scope): Delivery {
  if (tree === undefined) return { way: 'counter', sets: 1, ...usual.counter, basis: { on: 'common practice' } };
  const fields = new Fields(scope, tree, { name: `"deliver" of errand "${errand}"`, at: tree.at });
  const way = fields.word('by', ways) ?? 'counter';
  const plain = usual[way];
  const limit = fields.get('file_limit');
  const delivery: Delivery = {
    way,
    sets: fields.count('sets') ?? 1,
    files: fields.word('files', ['one file', 'separate files']) ?? plain.files,
    fileLimit: limit === undefined ? undefined : bytesOf(limit, `"file_limit" of ${fields.about}`, scope.problems),
    fileName: readName(fields),
    fileNameLimit: fields.count('file_name_limit'),
    untouched: fields.yes('untouched', plain.untouched),
    cover: fields.yes('cover', plain.cover),
    index: fields.yes('index', plain.index),
    dividers: fields.yes('dividers', plain.dividers),
    bookmarks: fields.yes('bookmarks', plain.bookmarks),
    stamps: fields.yes('stamps', plain.stamps),
    sealedCopy: fields.yes('sealed_copy', plain.sealedCopy),
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  if (delivery.untouched && (delivery.files === 'one file' || delivery.stamps)) {
    scope.problems.add(fields.at, `${fields.about}: files that go untouched are separate files without stamps.`);
  }
  return delivery;
}
