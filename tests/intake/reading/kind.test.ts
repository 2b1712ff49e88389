import { describe, expect, it } from 'vitest';
import { readPaper } from '../../../core/intake/reading/read-paper.ts';
import { readPractice } from '../../../core/practice/index.ts';
import { commonLayers } from '../../practice/common-layers.ts';
import { common, pageOf, readingOf, today } from './written.ts';

describe('the kind of a paper', () => {
  it('names the words that gave it away', () => {
    const [kind] = readingOf(['VELLMOOR COUNTY', '# DRIVEWAY PERMIT', 'A culvert of 15 inches is required.']).kinds;
    expect(kind).toMatchObject({ kind: 'driveway-permit', sureness: 'sure' });
    expect(kind?.because.map((place) => place.words.toLowerCase())).toEqual(
      expect.arrayContaining(['driveway permit', 'culvert']),
    );
  });

  it('tells an extension from the permit it extends', () => {
    expect(readingOf(['# SEPTIC PERMIT EXTENSION']).kinds[0]?.kind).toBe('septic-extension');
    expect(readingOf(['# SEPTIC PERMIT']).kinds[0]?.kind).toBe('septic-permit');
  });

  it('finds a title whatever the order of its words', () => {
    expect(readingOf(['# Inspection Result: Framing']).kinds[0]?.kind).toBe('framing-result');
  });

  it('is not sure of a paper that only mentions another', () => {
    const { kinds } = readingOf([
      '# Report 27-318',
      'Place  410 Sawpit Road, private well',
      'This letter is no objection to a certificate of occupancy.',
    ]);
    expect(kinds.every((kind) => kind.sureness !== 'sure')).toBe(true);
  });

  it('says nothing of a paper whose words no kind knows', () => {
    expect(readingOf(['# Grandmother’s apple cake', 'Six apples, two eggs.'])).toMatchObject({ kinds: [], facts: {} });
  });

  it('reads for the kind the person named, whatever the words say', () => {
    const pages = [pageOf(['# DRIVEWAY PERMIT', 'Bedrooms: 3'])];
    const reading = readPaper(pages, common, { today, kind: 'septic-permit' });
    expect(reading.kind).toBe('septic-permit');
    expect(reading.facts.bedrooms?.value).toEqual({ sort: 'count', value: 3 });
  });

  it('knows a kind that a local amendment adds, and its facts by their own names', () => {
    const text =
      'title: Vellmoor\nbasis: common practice\npapers:\n  burn-permit:\n    from: owner\n    facts: { pile_size: length }\n    looks_like: [burn permit]\n';
    const practice = readPractice([...commonLayers, { name: 'vellmoor.yaml', text }]);
    const reading = readPaper([pageOf(['# BURN PERMIT', 'Pile size: 12.5 ft'])], practice, { today });
    expect(reading.kind).toBe('burn-permit');
    expect(reading.facts.pile_size?.value).toEqual({ sort: 'length', value: 12.5 });
  });
});
