import type { Chance } from './chance.ts';

/** Names put together from syllables: no such county, town, road or person is meant to exist. */
const countyStems = ['Oxtarn', 'Vellmoor', 'Quarrelby', 'Brackenfold', 'Tarrowmere', 'Hindlewick', 'Pellgrave'];
const townStems = ['Dunmarrow', 'Ketterfell', 'Upper Sorrel', 'Nethercombe Gap', 'Ashquill', 'Fernhollow Mill'];
const first = [
  'Ada',
  'Tobin',
  'Merrit',
  'Ilse',
  'Corwen',
  'Della',
  'Joram',
  'Petra',
  'Silas',
  'Wenna',
  'Oskar',
  'Maud',
];
const last = [
  'Brennick',
  'Varesholt',
  'Oddingley',
  'Tamsett',
  'Quillory',
  'Hesperley',
  'Marrowby',
  'Lundqvell',
  'Pruett-Asgar',
];
const roads = [
  'Heronfoot',
  'Tallow Creek',
  'Miller Gate',
  'Old Quarry',
  'Thistledown',
  'Buckeye Hollow',
  'Long Acre',
  'Sawpit',
];
const roadSorts = ['Lane', 'Road', 'Drive', 'Ln', 'Rd', 'Trail', 'Court', 'Way'];
const firmStems = [
  'Dovetail Ridge',
  'Sparrowhawk',
  'Greywether',
  'Copperline',
  'Fieldgate',
  'Nine Oaks',
  'Tamarack Bend',
];
const firmSorts = [
  'Construction LLC',
  'Electric Inc.',
  'Plumbing Co.',
  'Framing LLC',
  'Site Works Inc.',
  'Builders LLC',
];
const insurerStems = ['Larkmere', 'Stonewarden', 'Halberd Valley', 'Quiet Harbor'];
const parcelShapes = [
  '###-##-####',
  '##-####-###-#',
  '####.##-##-####',
  'R### ### ####',
  '##-##-###-###.###',
  '########',
];

export interface Cast {
  readonly county: string;
  readonly town: string;
  readonly owner: string;
  readonly official: string;
  readonly address: string;
  readonly parcel: string;
  readonly firm: string;
  readonly insurer: string;
  readonly lender: string;
  readonly phone: string;
}

function person(chance: Chance): string {
  return `${chance.pick(first)} ${chance.yes(0.3) ? `${chance.pick(['A', 'J', 'M', 'R'])}. ` : ''}${chance.pick(last)}`;
}

/** The people, places and firms of one document. */
export function castFor(chance: Chance): Cast {
  const one = person(chance);
  const surname = one.split(' ').at(-1) ?? '';
  const owner = chance.yes(0.4) ? `${one} ${chance.pick(['and', '&'])} ${chance.pick(first)} ${surname}` : one;
  return {
    county: `${chance.pick(countyStems)} County`,
    town: chance.pick(townStems),
    owner,
    official: person(chance),
    address: `${chance.whole(11, 9870)} ${chance.pick(roads)} ${chance.pick(roadSorts)}`,
    parcel: chance.pattern(chance.pick(parcelShapes)),
    firm: `${chance.pick(firmStems)} ${chance.pick(firmSorts)}`,
    insurer: `${chance.pick(insurerStems)} Mutual Insurance Company`,
    lender: `${chance.pick(countyStems)} ${chance.pick(['Savings Bank', 'Credit Union', 'Farm Credit'])}`,
    phone: `(555) 555-01${chance.whole(10, 99)}`,
  };
}
