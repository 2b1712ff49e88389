import { createWriteStream, existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import type { PacketPlan } from '../../packet/plan-model.ts';
import type { KeptPacket } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Delivery } from '../../vocabulary/practice.ts';
import { privacyInWords, privacyOf } from '../../vocabulary/privacy.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { MailDraftAnswer } from '../contract/screen-answers.ts';
import { entryIn } from '../named.ts';
import { offerMade } from './made-files.ts';
import { type PacketPart as Part, packetNamed, wholeParts } from './packet-files.ts';

/** What most mail services take at most, whole draft; common practice, no source. */
const commonLimit = 25_000_000;

function megabytes(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** Names and parcel as they are used on the day: what lets a clerk lay the mail to the right file. */
function identityLines(at: AtLot): readonly string[] {
  const words = { owner: 'Owner', place: 'Place', parcel: 'Parcel' } as const;
  return at.lot
    .view()
    .identities.filter(({ from, to }) => (from === undefined || from <= at.day) && (to === undefined || to >= at.day))
    .map(({ sort, text }) => `${words[sort]}: ${text}`);
}

function textOf(
  packet: KeptPacket,
  { words, parts }: { words: string | undefined; parts: readonly Part[] },
  at: AtLot,
) {
  const lines = parts.map(({ name, pages, bytes, sha256 }) => {
    const count = pages === 0 ? '' : `, ${pages === 1 ? '1 page' : `${pages} pages`}`;
    return `  ${name} (${megabytes(bytes)}${count}; SHA-256 begins ${sha256.slice(0, 12)})`;
  });
  return [
    words ?? `Attached: ${packet.title}, for ${at.lot.view().title}.`,
    '',
    ...identityLines(at),
    '',
    'Attached files:',
    ...lines,
    '',
  ].join('\n');
}

/** Private papers that leave with the mail, each named: told before anything is sent. */
function privateInside({ tabs }: PacketPlan, at: AtLot): readonly string[] {
  const { papers } = at.lot.practice();
  const view = at.lot.view();
  return tabs
    .filter(({ place, seeTab }) => seeTab === undefined && (place === 'inside' || place === 'beside'))
    .flatMap(({ edition, riders = [] }) => [edition, ...riders])
    .flatMap((id) => (id === undefined ? [] : [entryIn(view, id)?.paper]))
    .flatMap((paper) => (paper === undefined ? [] : [privacyInWords(paper.title, privacyOf(paper.kind, papers))]))
    .filter((said) => said !== undefined)
    .map((said) => `${said} It leaves with this mail: see that the address is the one they gave you.`);
}

/** Whom the draft would be too large for: the office by its own limit, else most mail services. */
function tooLarge(
  bytes: number,
  parts: readonly Part[],
  { recipient, delivery }: { recipient: string; delivery: Delivery },
) {
  const largest = Math.max(...parts.map((part) => part.bytes));
  const limit = delivery.fileLimit;
  if (limit !== undefined && largest > limit) {
    return `${recipient} takes files of at most ${megabytes(limit)}; the largest attached has ${megabytes(largest)}. Ask them how to send it.`;
  }
  if (bytes <= commonLimit) return undefined;
  return `This draft has ${megabytes(bytes)}; many mail services stop at ${megabytes(commonLimit)}. Ask ${recipient} for another way, or send it in parts.`;
}

/**
 * Writes a message (RFC 5322, MIME) without a sender: that is the mail program's to fill in, which opens it as
 * unsent. The same packet and words give the same bytes. The private errand sheet never goes along.
 */
async function writeDraft(
  path: string,
  packet: KeptPacket,
  mail: { to: string | undefined; text: string; parts: readonly Part[]; day: string },
) {
  const { default: MailComposer } = await import('nodemailer/lib/mail-composer');
  const node = new MailComposer({
    ...(mail.to === undefined ? {} : { to: mail.to }),
    subject: packet.title,
    text: mail.text,
    date: new Date(`${mail.day}T12:00:00Z`),
    messageId: `<${packet.id}@lotfile.invalid>`,
    baseBoundary: packet.id,
    headers: { 'X-Unsent': '1' },
    attachments: mail.parts.map(({ name, path: file }) => ({ filename: name, path: file })),
    disableUrlAccess: true,
  }).compile();
  await pipeline(node.createReadStream(), createWriteStream(path, { flags: 'wx' }));
}

export const mailDraft = onLot(
  requests['mail-draft'],
  async ({ packet: said, to, words }, at): Promise<MailDraftAnswer> => {
    const packet = packetNamed(at, said);
    const plan = at.lot.packetPlan(packet.id);
    const { draft, delivery, recipient } = plan;
    const parts = (await wholeParts(packet, at)).filter(({ sort }) => sort !== 'print shop');
    if (parts.length === 0) {
      throw new LotfileError('not found', `There is nothing of "${packet.title}" to attach.`, {
        about: packet.title,
        next: 'Assemble it again.',
      });
    }
    const path = at.lot.temporaryPath();
    try {
      const text = textOf(packet, { words, parts }, at);
      await writeDraft(path, packet, { to, text, parts, day: at.day });
      // Removed for good while it was being attached: the draft must not outlive it.
      if (parts.some((part) => !existsSync(part.path))) await wholeParts(packet, at);
      const name = `${packet.code} ${packet.day}.eml`;
      const made = await offerMade({ path, name, key: `mail ${packet.id}` }, at);
      return {
        ...made,
        tooLargeFor: tooLarge(made.bytes, parts, { recipient, delivery }),
        attached: parts.map((part) => part.name),
        notes: [
          ...(draft ? ['What is attached is a DRAFT: its margins say so. Don’t send it like this.'] : []),
          ...privateInside(plan, at),
        ],
      };
    } finally {
      await rm(path, { force: true });
    }
  },
);
