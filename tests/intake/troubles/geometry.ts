import { onePage, words } from '../make-pdf.ts';
import { plainText, sound, type Trouble } from './trouble.ts';

const kept = { rung: 'normalised', text: plainText } as const;
const page = (keys: string, content?: string) => () =>
  onePage(content === undefined ? { page: keys } : { page: keys, content });

export const geometry: readonly Trouble[] = [
  { what: 'pages turned by 90', make: page('/MediaBox [ 0 0 612 792 ] /Rotate 90'), ends: kept },
  { what: 'pages turned by 180', make: page('/MediaBox [ 0 0 612 792 ] /Rotate 180'), ends: kept },
  { what: 'pages turned by 270', make: page('/MediaBox [ 0 0 612 792 ] /Rotate 270'), ends: kept },
  { what: 'pages turned by -450', make: page('/MediaBox [ 0 0 612 792 ] /Rotate -450'), ends: kept },
  { what: 'pages turned by 37', make: page('/MediaBox [ 0 0 612 792 ] /Rotate 37'), ends: kept },
  { what: 'a crop box', make: page('/MediaBox [ 0 0 612 792 ] /CropBox [ 50 300 500 500 ]'), ends: kept },
  {
    what: 'a crop box larger than its sheet',
    make: page('/MediaBox [ 0 0 612 792 ] /CropBox [ -100 -100 900 900 ]'),
    ends: kept,
  },
  {
    what: 'a crop box beside its sheet',
    make: page('/MediaBox [ 0 0 612 792 ] /CropBox [ 2000 2000 2100 2100 ]'),
    ends: { ...kept, like: sound, leaveOut: 'original' },
  },
  {
    what: 'an origin below zero',
    make: page('/MediaBox [ -306 -396 306 396 ]', words(plainText, -100, 40)),
    ends: kept,
  },
  {
    what: 'an origin far away',
    make: page('/MediaBox [ 10000 10000 10612 10792 ]', words(plainText, 10100, 10400)),
    ends: kept,
  },
  { what: 'corners in the other order', make: page('/MediaBox [ 612 792 0 0 ]'), ends: kept },
  { what: 'a sheet of no size', make: page('/MediaBox [ 0 0 0 0 ]'), ends: kept },
  { what: 'no sheet size at all', make: page('/Dur 3'), ends: kept },
  { what: 'a sheet size of words', make: page('/MediaBox [ (a) (b) (c) (d) ]'), ends: kept },
  {
    what: 'its own unit (UserUnit)',
    make: page('/MediaBox [ 0 0 300 400 ] /UserUnit 3', words(plainText, 40, 200)),
    ends: kept,
  },
  { what: 'a huge sheet', make: page('/MediaBox [ 0 0 14400 14400 ]'), ends: kept },
  { what: 'a sheet beyond the limit', make: page('/MediaBox [ 0 0 90000 20000 ]'), ends: kept },
  { what: 'a sheet of one point', make: page('/MediaBox [ 100 400 101 401 ]'), ends: { rung: 'normalised' } },
];
