import { firms } from './cast.ts';
import { lockForOwner } from './kit/lock-file.ts';
import { photograph } from './kit/photo.ts';
import { signOnce } from './kit/seal-file.ts';
import { application, applicationSigned } from './papers/application.ts';
import * as building from './papers/building.ts';
import * as closing from './papers/closing.ts';
import * as health from './papers/health.ts';
import * as healthLater from './papers/health-later.ts';
import * as land from './papers/land.ts';
import * as money from './papers/money.ts';
import { enlarge, picture, type SceneName } from './papers/pictures.ts';
import * as roads from './papers/roads-power.ts';
import { erosionSketch } from './papers/sketches.ts';
import { survey } from './papers/survey.ts';
import * as termite from './papers/termite.ts';
import * as trades from './papers/trades.ts';
import { trussSheets } from './papers/truss-sheets.ts';
import { planSet } from './plans/plan-set.ts';

type Make = () => Promise<Uint8Array>;

const shot = (name: SceneName, taken: string, look: { orientation?: 1 | 6; width?: number } = {}): Make => {
  return () => picture(name, { taken, orientation: look.orientation ?? 1, width: look.width ?? 1200 });
};

const upright = [
  [0.08, 0.05],
  [0.93, 0.09],
  [0.97, 0.95],
  [0.03, 0.91],
] as const;
const card = [
  [0.12, 0.34],
  [0.86, 0.29],
  [0.9, 0.64],
  [0.14, 0.68],
] as const;

const ofCard = (seed: string, pdf: () => Promise<Uint8Array>, taken: string): Make => {
  return async () =>
    photograph(await enlarge(await pdf(), 330), {
      seed,
      size: [1000, 1333],
      corners: card,
      taken,
      orientation: 6,
      quality: 64,
    });
};

const certificates: readonly [string, trades.Certificate][] = [
  [
    'cert framing.pdf',
    {
      firm: firms.framing,
      sort: 'liability',
      number: '',
      day: '2026-02-02',
      issued: 'Feb 2, 2026',
      from: '02/01/2026',
      to: '02/01/2027',
    },
  ],
  [
    'framing WC.pdf',
    {
      firm: firms.framing,
      sort: 'compensation',
      number: 'SW-40318',
      day: '2026-02-02',
      issued: 'Feb 2, 2026',
      from: '02/01/2026',
      to: '02/01/2027',
    },
  ],
  [
    'COI Wrenhollow.pdf',
    {
      firm: firms.electrical,
      sort: 'liability',
      number: '',
      day: '2026-03-16',
      issued: 'Mar 16, 2026',
      from: '03/15/2026',
      to: '03/15/2027',
    },
  ],
  [
    'Wrenhollow comp.pdf',
    {
      firm: firms.electrical,
      sort: 'compensation',
      number: 'SW-38877',
      day: '2026-03-16',
      issued: 'Mar 16, 2026',
      from: '03/15/2026',
      to: '03/15/2027',
    },
  ],
  [
    'Dovesink cert.pdf',
    {
      firm: firms.plumbing,
      sort: 'liability',
      number: '',
      day: '2026-04-02',
      issued: 'Apr 2, 2026',
      from: '04/01/2026',
      to: '04/01/2027',
    },
  ],
  [
    'Dovesink workers comp.pdf',
    {
      firm: firms.plumbing,
      sort: 'compensation',
      number: 'SW-41190',
      day: '2026-04-02',
      issued: 'Apr 2, 2026',
      from: '04/01/2026',
      to: '04/01/2027',
    },
  ],
];

const second: readonly [string, trades.Certificate][] = [
  [
    'COI Alder Ash.pdf',
    {
      firm: firms.framingAgain,
      sort: 'liability',
      number: '',
      day: '2026-09-15',
      issued: 'Sep 15, 2026',
      from: '09/21/2026',
      to: '09/21/2027',
    },
  ],
  [
    'Alder Ash WC.pdf',
    {
      firm: firms.framingAgain,
      sort: 'compensation',
      number: 'SW-44702',
      day: '2026-09-14',
      issued: 'Sep 14, 2026',
      from: '09/01/2026',
      to: '09/01/2027',
    },
  ],
];

const ofSheet = (seed: string, pdf: () => Promise<Uint8Array>, taken: string): Make => {
  return async () =>
    photograph(await enlarge(await pdf(), 190), {
      seed,
      size: [900, 1200],
      corners: upright,
      taken,
      orientation: 1,
      quality: 60,
    });
};

const madeFrom = {
  trussA: {
    revision: 'A',
    plansDay: '2025-12-08',
    bedrooms: 4,
    day: '2026-01-19',
    words: 'January 19, 2026',
    version: 'FTW-26-0044',
  },
  trussC: {
    revision: 'C',
    plansDay: '2026-04-15',
    bedrooms: 3,
    day: '2026-04-15',
    words: 'April 15, 2026',
    version: 'FTW-26-0044 R',
  },
  energyB: {
    revision: 'B',
    plansDay: '2026-03-09',
    bedrooms: 4,
    day: '2026-03-12',
    words: 'March 12, 2026',
    version: '2',
  },
  energyC: {
    revision: 'C',
    plansDay: '2026-04-15',
    bedrooms: 3,
    day: '2026-04-15',
    words: 'April 15, 2026',
    version: '3',
  },
} as const;

/** Every file of the lot under the name its owner knows it by, and how it is made. */
export const shelf: Readonly<Record<string, Make>> = {
  'scan0012.pdf': land.deed,
  'Orrick survey 18x24.pdf': survey,
  'school tax receipt.pdf': land.taxReceipt,
  'erosion sketch.pdf': erosionSketch,
  'perc results.pdf': health.percResults,
  'Scan_2024-10-28 septic.pdf': health.septicPermit,
  'septic extension.pdf': health.septicExtension,
  'WellPermit_Lindqvist.pdf': health.wellPermit,
  '911 address.pdf': land.addressLetter,
  'Fennick Valley letter.pdf': roads.serviceLetter,
  'lindqvist_plans_A.pdf': () => planSet('A'),
  'Lindqvist House rev B FULL SET (2).pdf': () => planSet('B'),
  'Lindqvist House rev C.pdf': () => planSet('C'),
  'truss pkg.pdf': () => trussSheets(madeFrom.trussA),
  'truss pkg REISSUED.pdf': () => trussSheets(madeFrom.trussC),
  'energy_report_v2.pdf': () => trades.energyReport(madeFrom.energyB),
  'energy_report_v3_final.pdf': () => trades.energyReport(madeFrom.energyC),
  'cost breakdown bank copy.pdf': () => money.costBreakdown('A'),
  'cost breakdown rev C.pdf': () => money.costBreakdown('C'),
  'recorded mortgage.pdf': land.mortgage,
  'BINDER.pdf': money.binder,
  'policy declarations.pdf': money.policy,
  'BD7 blank.pdf': () => application('blank'),
  'permit application (from tablet).pdf': () => application('no looks'),
  'scan0031.pdf': applicationSigned,
  'owner builder signed.pdf': building.ownerBuilder,
  'IMG_3902.JPG': ofCard('framer', trades.licenceCard, '2026:03:28 12:41:07'),
  'electric licence.pdf': () => trades.licence(firms.electrical, 'December 31, 2027'),
  'plumber lic.pdf': () => trades.licence(firms.plumbing, 'December 31, 2027'),
  ...Object.fromEntries(certificates.map(([name, look]): [string, Make] => [name, () => trades.certificate(look)])),
  'IMG_3877.JPG': ofCard('identity', trades.ownerIdCard, '2026:03:08 19:02:40'),
  'IMG_4102.JPG': shot('bareLot', '2026:03:22 08:15:31', { width: 1000 }),
  'Invoice 1187 Ostrey.pdf': money.invoice,
  'DW-26-058 driveway.pdf': roads.drivewayPermit,
  'permit card.pdf': building.permitCard,
  'NOC recorded.pdf': land.commencement,
  'locate ticket.pdf': roads.locateTicket,
  'temp power.pdf': roads.temporaryPower,
  'IMG_4471.JPG': async () =>
    photograph(await enlarge(await termite.termiteTreatment(), 260), {
      seed: 'termite',
      size: [2160, 2800],
      corners: upright,
      taken: '2026:06:16 11:22:09',
      orientation: 6,
      quality: 82,
    }),
  ...Object.fromEntries(
    Object.entries(building.results).map(([name, result]): [string, Make] => [
      name,
      () => building.inspectionResult(result),
    ]),
  ),
  'septic final.pdf': healthLater.septicFinal,
  'water lab report.pdf': healthLater.waterTest,
  'blower door.pdf': trades.airLeakage,
  'duct test.pdf': trades.ductLeakage,
  'energy certificate panel.pdf': trades.energyCertificate,
  'termite final cert.pdf': termite.termiteFinal,
  'house front.JPG': shot('front', '2027:02:20 14:02:11', { width: 1280 }),
  'house back.JPG': shot('rear', '2027:02:20 14:05:50', { width: 1280 }),
  'house left.JPG': shot('south', '2027:02:20 14:08:03', { orientation: 6, width: 1000 }),
  'house right.JPG': shot('north', '2027:02:20 14:10:26', { width: 1000 }),
  'homeowners app.pdf': money.homeApplication,
  'releases draw 6.pdf': money.lienReleases,
  'driveway final.pdf': roads.drivewayFinal,
  'certificate of occupancy.pdf': roads.occupancyCertificate,
  'HO binder.pdf': money.homeBinder,
  'deed recorded 3-17.pdf': land.lateDeed,
  'locate pits.pdf': roads.pitsTicket,
  'IMG_4088.JPG': shot('pin', '2026:03:21 10:40:12', { width: 960 }),
  'IMG_4530.JPG': shot('trench', '2026:06:17 09:14:55', { width: 960 }),
  'Lindqvist House rev D.pdf': () => planSet('D'),
  'FRAMING not passed.pdf': closing.framingNotPassed,
  'Alder Ash licence.pdf': () => trades.licence(firms.framingAgain, 'December 31, 2026'),
  ...Object.fromEntries(second.map(([name, look]): [string, Make] => [name, () => trades.certificate(look)])),
  'IMG_5207.JPG': shot('kitchenNorth', '2026:09:04 07:31:02', { width: 960 }),
  'IMG_5209.JPG': shot('bathEast', '2026:09:04 07:33:40', { width: 960 }),
  'IMG_5211.JPG': shot('bedroomSouth', '2026:09:04 07:36:18', { width: 960 }),
  'IMG_5214.JPG': shot('hallWest', '2026:09:04 07:38:51', { width: 960 }),
  'IMG_5216.JPG': shot('utilityEast', '2026:09:04 07:41:27', { width: 960 }),
  'IMG_5118.JPG': ofSheet('receipt', closing.tillReceipt, '2026:08:03 08:20:44'),
  'IMG_6203.JPG': ofCard('plate', closing.namePlate, '2027:01:19 15:02:33'),
  'temp occupancy.pdf': closing.temporaryOccupancy,
  'punch list 2-24.pdf': closing.punchList,
  'last draw letter.pdf': closing.lastDrawLetter,
};

/**
 * Files that come out different each time (a throw-away key, random salt): made only where they are missing,
 * and the made file is kept.
 */
export const once: Readonly<Record<string, Make>> = {
  'Flood letter (signed).pdf': async () => signOnce(await land.floodLetter(), 'Marguerite Ilves', '2026-02-11'),
  'commitment_ltr_LOCKED.pdf': async () => lockForOwner(await money.commitment()),
};
