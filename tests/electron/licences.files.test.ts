import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { allowedSchema, judgeAudit } from '../../electron/packaging/advisories.ts';
import { howItMayTravel, licencesIn } from '../../electron/packaging/licences.ts';

const project = join(import.meta.dirname, '..', '..');
const json = (...path: readonly string[]): unknown => JSON.parse(readFileSync(join(project, ...path), 'utf8'));

describe('the terms of what travels with the program', () => {
  it('fit, package by package, and LGPL parts are files of their own', () => {
    const rows = licencesIn(json('package-lock.json'));
    expect(rows.length).toBeGreaterThan(60);
    expect(rows.map(({ name }) => name)).toEqual(expect.arrayContaining(['electron', 'react', 'libheif-js', 'sharp']));
    expect(rows.filter((row) => howItMayTravel(row) === undefined)).toEqual([]);
  });

  it('don’t fit where they are unknown, stronger, or of a part nobody could exchange', () => {
    const of = (name: string, licence: string) => howItMayTravel({ name, version: '1.0.0', licence });
    for (const licence of ['', 'GPL-3.0', 'AGPL-3.0-or-later', 'MIT AND GPL-2.0', 'SEE LICENSE IN TERMS.md']) {
      expect([licence, of('some-part', licence)]).toEqual([licence, undefined]);
    }
    expect(of('some-part', 'LGPL-3.0')).toBeUndefined();
    expect(of('libheif-js', 'LGPL-3.0')).toContain('never bundled');
    expect(of('some-part', '(MIT AND Zlib)')).toBe('named in the list');
  });

  it('ours say that no licence is given yet', () => {
    expect(json('package.json')).toMatchObject({ private: true, license: 'UNLICENSED' });
  });
});

describe('what is known against the packages', () => {
  const report = {
    vulnerabilities: {
      part: {
        name: 'part',
        via: [{ title: 'Hangs', severity: 'high', url: 'https://example.org/GHSA-aaaa-bbbb-cccc' }],
      },
      user: { name: 'user', via: ['part'] },
    },
  };
  const stands = { id: 'GHSA-aaaa-bbbb-cccc', package: 'part', why: 'Never given a stranger’s text here.' };

  it('is open until somebody wrote down why it may stand, and a reason nobody needs is told too', () => {
    expect(judgeAudit(report, []).open).toEqual(['part: Hangs (high, GHSA-aaaa-bbbb-cccc)']);
    expect(judgeAudit(report, [stands])).toEqual({ open: [], needless: [] });
    expect(judgeAudit({ vulnerabilities: {} }, [stands])).toEqual({ open: [], needless: ['GHSA-aaaa-bbbb-cccc'] });
  });

  it('is not taken for clean where the registry could not be asked', () => {
    expect(() => judgeAudit({ error: { code: 'ENOTFOUND' } }, [])).toThrow(/nothing is known/);
  });

  it('the list of what stands has a reason for each', () => {
    expect(() => allowedSchema.parse(json('electron', 'packaging', 'allowed-advisories.json'))).not.toThrow();
  });
});
