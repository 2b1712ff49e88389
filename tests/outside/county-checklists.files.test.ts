import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { commonLayers, errandOf, inOneLine, needOf, paperOf, under } from '../practice/common-layers.ts';

/**
 * Twelve jurisdictions' own checklists, each written as amendments over common practice, must come out as
 * exactly the papers that jurisdiction's page asks for at application. The pages were read in stored copies;
 * each file names its address and the day. A cell that the page leaves blank is asked by nobody here.
 */
function county(name: string): Practice {
  const text = readFileSync(join(import.meta.dirname, 'counties', `${name}.yaml`), 'utf8');
  return readPractice([...commonLayers, { name: `${name}.yaml`, text }]);
}

function asks(name: string): readonly string[] {
  return errandOf(county(name), 'permit-apply').needs.map(inOneLine);
}

const checklists: Readonly<Record<string, readonly string[]>> = {
  'loudon-tn': [
    'application: permit-application, [filled in at the office]',
    'site-plan',
    'septic-permit, when sewage is septic',
    'address-letter',
    'driveway-permit, when road is county/state',
    'owner-builder-statement, when owner_builds is true',
    'compensation: compensation-certificate, each engagement',
    'cost: cost-breakdown',
    'school-tax-form, [half paid, signed]',
  ],
  'banks-ga': [
    'application: permit-application',
    'plans, on letter',
    'plat, [septic drawn, well drawn, drive drawn, easements drawn]',
    'septic-permit',
    'soil-evaluation',
  ],
  'stephens-ga': [
    'application: permit-application',
    'plans',
    'septic-permit',
    'soil-evaluation',
    'owner-affidavit, when owner_builds is true',
    'sub-contractor-affidavit, each engagement, when owner_builds is true',
  ],
  'greene-ga': [
    'application: permit-application, [signed by the contractor]',
    'plans-on-paper: plans, paper only',
    'plans-as-pdf: plans, electronic only',
    'plat',
    'septic-permit',
    'erosion-plan',
  ],
  'st-lucie-fl': [
    'application: permit-application, [signed, notarised]',
    'plans, x2, on letter/legal/ansi-b/ansi-c/ansi-d/arch-a/arch-b/arch-c/arch-d/a3/a2/a1, sealed wet/digital, stamped by environmental-health, [trusses included]',
    'boundary-survey, x2',
    'notice-of-commencement, when work_value over 250000, [recorded]',
    'vegetation-removal',
    'tree-plan',
  ],
  'prince-george-va': [
    'application: permit-application',
    'plans, x3',
    'plot-plan, x3, [septic drawn, well drawn]',
    'truss-sheets, sealed wet/digital, [each sheet sealed]',
    'energy-report, [R-values shown]',
  ],
  'winchester-va': [
    'application: permit-application',
    'plans, x2',
    'site-plan',
    'land-disturbance-permit',
    'lien-agent-naming',
    'cost: cost-breakdown',
    'who-drew-the-plans',
  ],
  'san-juan-wa': [
    'application: permit-application, [shoreline section filled in]',
    'plans',
    'site-plan',
    'septic-design',
    'water-certificate',
    'owner-declaration, when owner_builds is true',
    'cost: cost-breakdown',
    'scope-statement',
  ],
  'lawrence-sd': [
    'application: permit-application',
    'plans',
    'site-plan, [well drawn, drive drawn]',
    'septic-permit, [permit number written]',
    'septic-design',
    'structural-data',
    'wildfire-plan',
  ],
  'grand-co': [
    'application: permit-application, electronic only',
    'plans, [scale 1/4 inch]',
    'site-plan',
    'sanitation: septic-permit|sewer-letter',
    'water: well-permit|water-letter',
    'driveway-permit, when road is county/state',
    'structural-sheets',
    'association-approval, when owners_association is true',
    'fire-fee-receipt',
  ],
  'okanogan-wa': [
    'application: permit-application',
    'plans, x2, paper only, on ansi-b/ansi-c/ansi-d/ansi-e/ansi-f/arch-b/arch-c/arch-d/arch-e1/arch-e/a2/a1/a0',
    'site-information',
    'health-approval',
    'water-adequacy',
    'address-letter',
  ],
  'ellis-tx': [
    'application: permit-application',
    'septic-design',
    'soil-evaluation',
    'water-letter, [signed by the provider]',
    'address-letter',
    'culvert-sizing',
    'floodplain-form',
  ],
};

describe("the counties' own checklists", () => {
  for (const [name, needs] of Object.entries(checklists)) {
    it(`${name} asks at application for exactly what its page lists`, () => {
      expect(asks(name)).toEqual(needs);
    });
  }

  it('every need of every county stands on its published page, with address and day read', () => {
    for (const name of Object.keys(checklists)) {
      for (const need of errandOf(county(name), 'permit-apply').needs) {
        expect(need.basis, `${name}: ${need.id}`).toMatchObject({
          on: 'published',
          source: expect.stringMatching(/^https?:\/\//),
          read: expect.stringMatching(/^20\d\d-\d\d-\d\d$/),
        });
      }
    }
  });

  it('what a county does not touch stays common practice, on nobody’s word', () => {
    expect(errandOf(county('ellis-tx'), 'loan-close').basis).toEqual({ on: 'common practice' });
    expect(errandOf(county('ellis-tx'), 'permit-apply').basis).toEqual({ on: 'common practice' });
  });

  it('Banks gives the address during the review: two errands, one after the other, and no loop', () => {
    const banks = county('banks-ga');
    expect(errandOf(banks, 'permit-apply').needs.flatMap((need) => need.kinds)).not.toContain('address-letter');
    expect(errandOf(banks, 'address-apply').needs).toEqual([]);
    expect(errandOf(banks, 'address-apply').before.map((one) => one.after)).toEqual([{ errand: 'permit-apply' }]);
    expect(needOf(banks, 'permit-pick-up', 'address-letter').use).toBe('bring home');
  });

  it('Banks wants the drive established and the construction box set before the application', () => {
    const before = errandOf(county('banks-ga'), 'permit-apply').before.map((one) => one.after);
    expect(before).toEqual([{ errand: 'driveway-apply' }, { event: 'construction-box-set' }]);
  });

  it('a plat that shows everything serves wherever a survey is asked for', () => {
    expect(needOf(county('banks-ga'), 'septic-apply', 'boundary-survey').kinds).toEqual(['boundary-survey', 'plat']);
  });

  it('Greene wants the septic final report before occupancy, septic or not said', () => {
    expect(inOneLine(needOf(county('greene-ga'), 'occupancy-walk', 'septic-final'))).toBe('septic-final');
  });

  it('Grand takes the application online only: separate files, byte for byte, nothing printed on them', () => {
    expect(errandOf(county('grand-co'), 'permit-apply').deliver).toMatchObject({
      way: 'upload',
      files: 'separate files',
      untouched: true,
      stamps: false,
      cover: false,
    });
  });

  it('Okanogan has no addressing office; its planning office gives the address', () => {
    const okanogan = county('okanogan-wa');
    expect(under(okanogan.offices, 'addressing').exists).toBe(false);
    expect(errandOf(okanogan, 'address-apply').office).toBe('zoning');
    expect(paperOf(okanogan, 'address-letter').from).toBe('zoning');
  });

  it('Fayetteville permits in parts: foundation, survey before the slab, no framing before the building permit', () => {
    const parts = county('fayetteville-ga');
    expect(errandOf(parts, 'foundation-permit-apply').yields).toEqual(['foundation-permit']);
    expect(errandOf(parts, 'footing-inspect').needs.map((one) => one.id)).toEqual([
      'foundation-permit',
      'foundation-survey',
    ]);
    expect(errandOf(parts, 'footing-inspect').before.map((one) => one.id)).toEqual([
      'mortgage',
      'foundation-permit-apply',
    ]);
    expect(errandOf(parts, 'framing-inspect').before.map((one) => one.after)).toEqual([{ errand: 'permit-pick-up' }]);
    expect(errandOf(parts, 'occupancy-walk').needs.at(-1)?.id).toBe('final-survey');
  });
});
