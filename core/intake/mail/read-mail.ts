import { readFileSync, statSync } from 'node:fs';
import PostalMime, { type Address, type Attachment, type Email } from 'postal-mime';
import { refused } from '../refusals.ts';
import type { Holding, Inside } from './holding.ts';
import { htmlText } from './html-text.ts';
import { shownName } from './told-name.ts';
import type { MailNote } from './unpack-model.ts';

/** No mailbox passes more on; it is read whole. */
const largestMail = 256 * 1024 * 1024;
const longestText = 200_000;

/** Parts that belong to the e-mail's own machinery. */
const machinery: Readonly<Record<string, string>> = {
  'application/pkcs7-signature': "is the e-mail's own signature, no paper.",
  'application/x-pkcs7-signature': "is the e-mail's own signature, no paper.",
  'application/pgp-signature': "is the e-mail's own signature, no paper.",
  'application/pkcs7-mime':
    'is the e-mail in encrypted form: open it in your mail program and save its attachments from there.',
  'application/pgp-encrypted':
    'is the e-mail in encrypted form: open it in your mail program and save its attachments from there.',
  'application/ms-tnef':
    'is a wrapper that only one mail program opens: ask the sender to send the files as plain attachments.',
};

function people(list: readonly Address[] | undefined): readonly string[] {
  return (list ?? []).flatMap((one): readonly string[] => {
    if (one.group !== undefined) return people(one.group);
    return [one.name === '' ? (one.address ?? '') : `${one.name} <${one.address}>`];
  });
}

function instant(date: string | undefined): string | undefined {
  const time = date === undefined ? Number.NaN : Date.parse(date);
  return Number.isFinite(time) ? new Date(time).toISOString() : undefined;
}

function noteOf(mail: Email, within: string | undefined): MailNote {
  const plain = mail.text?.trim() ?? '';
  return {
    from: mail.from === undefined ? undefined : people([mail.from])[0],
    to: people(mail.to),
    cc: people(mail.cc),
    subject: mail.subject?.trim(),
    date: instant(mail.date),
    text: (plain === '' ? htmlText(mail.html ?? '') : plain).slice(0, longestText),
    within,
  };
}

function bytesOf({ content }: Attachment): Uint8Array {
  if (typeof content === 'string') return Buffer.from(content);
  return content instanceof Uint8Array ? content : new Uint8Array(content);
}

function takeAttachment(attachment: Attachment, index: number, { holding, within }: Into): void {
  const fallback = attachment.mimeType === 'message/rfc822' ? `e-mail ${index + 1}` : `attachment ${index + 1}`;
  const name = shownName(attachment.filename, fallback);
  const why = machinery[attachment.mimeType];
  if (why !== undefined) {
    holding.leave(name, why);
    return;
  }
  const inline = attachment.related === true || attachment.disposition === 'inline';
  const inside: Inside = { name, within, ...(inline ? { inline: true as const } : {}) };
  holding.write(inside, bytesOf(attachment));
}

interface Into {
  readonly holding: Holding;
  readonly within: string | undefined;
}

/**
 * Reads an e-mail (RFC 5322, MIME): itself as a note, each attachment as a file.
 * @throws LotfileError `file refused`
 */
export async function readMail(path: string, name: string, into: Into): Promise<void> {
  if (statSync(path).size > largestMail)
    throw refused(name, 'is an e-mail of more than 256 MB.', 'Save its attachments from your mail program.');
  let mail: Email;
  try {
    mail = await PostalMime.parse(readFileSync(path), {
      forceRfc822Attachments: true,
      attachmentEncoding: 'arraybuffer',
    });
  } catch (cause) {
    throw refused(name, `is an e-mail that can't be read (${cause instanceof Error ? cause.message : 'damaged'}).`);
  }
  into.holding.mails.push(noteOf(mail, into.within));
  for (const [index, attachment] of mail.attachments.entries()) takeAttachment(attachment, index, into);
}
