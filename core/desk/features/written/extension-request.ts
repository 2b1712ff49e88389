import { ownersOn, parcelOn, placeOn } from '../../../packet/plan/identity.ts';
import { type Asked, validityOf } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import { dayInWords, isDay, spanInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Validity } from '../../../vocabulary/finding.ts';
import { basisInWords } from '../../../vocabulary/in-words.ts';
import type { Edition } from '../../../vocabulary/lot.ts';
import type { PaperKind, Practice } from '../../../vocabulary/practice.ts';
import { editionNamed, kindTitle, type NamedEdition } from '../../named.ts';
import { officeCard } from '../asked.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

/** The office that decides: where the errand that brings the extension is gone on, else who issued the paper. */
function officeFor(practice: Practice, kind: PaperKind): string {
  const by = kind.extension?.by;
  const errand = Object.values(practice.errands).find(({ yields }) => by !== undefined && yields.includes(by));
  return errand?.office ?? practice.papers[by ?? '']?.from ?? kind.from;
}

function meant(frame: PaperFrame): { readonly named: NamedEdition; readonly kind: PaperKind } {
  const { asked, wanted } = frame;
  const { practice, lot: view, day } = asked;
  if (wanted.paper === undefined) {
    const some = Object.values(practice.papers).filter(({ extension }) => extension !== undefined);
    throw new LotfileError('wrong use', 'Which paper needs more time was not said.', {
      next: `Those that can be extended here: ${some.map(({ id }) => id).join(', ') || 'none that the practice knows'}.`,
    });
  }
  const named = editionNamed({ view, practice, day }, wanted.paper);
  const kind = practice.papers[named.paper.kind];
  if (kind?.extension !== undefined) return { named, kind };
  throw new LotfileError('wrong use', `The practice here knows no extension of "${named.paper.title}".`, {
    about: named.paper.title,
    next: 'Ask the office; if they say otherwise, note it (clerk-said), then write the request.',
  });
}

function timeWords(validity: Validity, kind: PaperKind): readonly string[] {
  const { through, askBy, good } = validity;
  if (!isDay(through))
    return ['The day on which it lapses is not written on my copy. Please tell me that day as well.'];
  const ask = askBy === undefined ? '' : ` As I understand it, more time has to be asked for by ${dayInWords(askBy)}.`;
  if (good !== false) return [`It is good through ${dayInWords(through)}.${ask}`];
  const window = kind.revival === undefined ? '' : ` within ${spanInWords(kind.revival.within)}`;
  return [`By my reckoning it was good through ${dayInWords(through)}. I ask whether it can be brought back${window}.`];
}

/** How often it was extended by the day. */
function extendedBefore(edition: Edition, { lot, day }: Asked): number {
  const adds = ({ received, links }: Edition): boolean =>
    received <= day && links.some(({ word, to }) => word === 'extends' && to === edition.id);
  return lot.papers.flatMap(({ editions }) => editions.filter(adds)).length;
}

function wishWords(kind: PaperKind, before: number): string {
  const { extension } = kind;
  if (extension === undefined) return '';
  if (before > 0)
    return `It was extended ${before === 1 ? 'once' : `${before} times`}. I ask you for ${spanInWords(extension.adds)} more.`;
  const times = extension.times === 1 ? 'once' : `${extension.times} times`;
  return `I ask you for ${spanInWords(extension.adds)} more, which I understand can be given ${times}.`;
}

function notesOf(validity: Validity, kind: PaperKind, frame: PaperFrame): readonly string[] {
  const { day } = frame.asked;
  const { extension } = kind;
  const late =
    validity.good === false && extension?.askedBeforeLapse === true
      ? ['It lapsed already, and it has to be asked for before that: phone the office before you go.']
      : [];
  const over =
    validity.askBy !== undefined && validity.askBy < day
      ? ['The last day to ask is past: phone the office first.']
      : [];
  const event = extension?.after;
  const title = event === undefined ? undefined : (frame.asked.practice.events[event]?.title ?? event);
  const begun = frame.asked.lot.events.some((one) => one.event === event && one.day <= day);
  const soon = title === undefined || begun ? [] : [`They give more time only after "${title}", which is not noted.`];
  return [...late, ...over, ...soon, `The rule rests on: ${basisInWords(kind.basis)}.`];
}

/** A plain letter that asks for more time: the permit, its last good day, by when one has to ask. */
export function extensionRequest(frame: PaperFrame): PaperDraft {
  const { asked, wanted } = frame;
  const { named, kind } = meant(frame);
  const { edition, paper } = named;
  const validity = validityOf(edition, asked);
  const office = officeCard(asked.practice, officeFor(asked.practice, kind));
  const recipient = wanted.recipient ?? office.title;
  const words = paperWording.extension;
  const before = extendedBefore(edition, asked);
  const number = edition.number === undefined ? 'without a number' : `No. ${edition.number}`;
  const issued = edition.issued === undefined ? '' : `, issued on ${dayInWords(edition.issued)}`;
  const parcel = parcelOn(asked.lot, asked.day);
  const place = [placeOn(asked.lot, asked.day), parcel === '' ? '' : `parcel ${parcel}`].filter((part) => part !== '');
  const title = kindTitle(asked.practice, kind.id);
  return {
    name: `more time ${kind.id}`,
    own: false,
    kicker: words.kicker,
    title: `${paper.title} ${edition.number ?? ''}`.trim(),
    recipient,
    blocks: [
      { block: 'letter', lines: [[recipient, office.street].filter((part) => part !== undefined).join('\n')] },
      { block: 'letter', lines: [dayInWords(asked.day), words.dear] },
      {
        block: 'letter',
        lines: [
          `This is about the ${title.toLowerCase()} ${number}${issued}, for ${place.join(', ')}.`,
          ...timeWords(validity, kind),
          validity.good === false ? '' : wishWords(kind, before),
          wanted.words ?? '',
          'Please answer me in writing, with the new last good day.',
          words.close,
        ].filter((line) => line !== ''),
      },
      { block: 'letter', lines: [ownersOn(asked.lot, asked.day)] },
      { block: 'sign', fields: [words.sign, words.day] },
    ],
    notes: [
      ...(before < (kind.extension?.times ?? 0)
        ? []
        : ['It was extended as often as the practice here knows: phone the office before you go.']),
      ...notesOf(validity, kind, frame),
    ],
  };
}
