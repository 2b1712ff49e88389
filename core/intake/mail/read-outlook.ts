import { closeSync, openSync, readFileSync, readSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import type msgreader from '@kenjiuno/msgreader';
import type { FieldsData } from '@kenjiuno/msgreader';
import { refused } from '../refusals.ts';
import { withinTime } from '../within-time.ts';
import type { Holding } from './holding.ts';
import { htmlText } from './html-text.ts';
import { leadsRound } from './sector-chains.ts';
import { shownName } from './told-name.ts';

const largestMessage = 256 * 1024 * 1024;
/** A damaged message can lead its reader round in a circle (file 167 of the fuzz's seed 20). */
const secondsFor = (bytes: number): number => 5 + bytes / 10_000_000;

function isReaderModule(value: unknown): value is typeof msgreader {
  return typeof value === 'object' && value !== null && 'default' in value && typeof value.default === 'function';
}

/** Loaded where a message comes in; a CommonJS package whose default export differs with whoever imports it. */
function outlookReader(): typeof msgreader.default {
  const found: unknown = createRequire(import.meta.url)('@kenjiuno/msgreader');
  if (!isReaderModule(found)) throw new Error('The reader of Outlook messages has another shape than expected.');
  return found.default;
}

/** The name of the stream that every message has at its root (MS-OXMSG, 2.4), as a compound file writes names. */
const mark = Buffer.from('__properties_version1.0', 'utf16le');

/** True for an Outlook message: a compound file that holds a message's properties. */
export function isOutlook(path: string): boolean {
  const size = statSync(path).size;
  if (size > largestMessage) return false;
  const head = Buffer.alloc(8);
  const fd = openSync(path, 'r');
  try {
    readSync(fd, head);
  } finally {
    closeSync(fd);
  }
  return head.toString('hex') === 'd0cf11e0a1b11ae1' && readFileSync(path).includes(mark);
}

function instant(text: string | undefined): string | undefined {
  const time = text === undefined ? Number.NaN : Date.parse(text);
  return Number.isFinite(time) ? new Date(time).toISOString() : undefined;
}

function person(name: string | undefined, address: string | undefined): string | undefined {
  if (address === undefined || address === '' || !address.includes('@')) return name;
  return name === undefined || name === '' || name === address ? address : `${name} <${address}>`;
}

function recipients(message: FieldsData, sort: 'to' | 'cc'): readonly string[] {
  return (message.recipients ?? [])
    .filter(({ recipType }) => (recipType ?? 'to') === sort)
    .flatMap(({ name, smtpAddress, email }) => person(name, smtpAddress ?? email) ?? []);
}

function textOf(message: FieldsData): string {
  const plain = message.body?.trim() ?? '';
  if (plain !== '') return plain;
  return htmlText(message.bodyHtml ?? (message.html === undefined ? '' : Buffer.from(message.html).toString('utf8')));
}

interface Into {
  readonly holding: Holding;
  readonly within: string | undefined;
}

/**
 * Reads an Outlook message (MS-OXMSG) as {@link readMail} does an e-mail.
 * @throws LotfileError `file refused`
 */
export function readOutlook(path: string, name: string, { holding, within }: Into): void {
  try {
    const bytes = readFileSync(path);
    if (leadsRound(bytes)) throw new Error('Its sectors lead round in a circle.');
    const seconds = secondsFor(bytes.length);
    const Reader = outlookReader();
    const reader = new Reader(new DataView(bytes.buffer, bytes.byteOffset, bytes.length));
    const message = withinTime(seconds, () => reader.getFileData());
    if (message.error !== undefined) throw new Error(message.error);
    holding.mails.push({
      from: person(message.senderName, message.senderSmtpAddress ?? message.senderEmail),
      to: recipients(message, 'to'),
      cc: recipients(message, 'cc'),
      subject: message.subject,
      date: instant(message.clientSubmitTime ?? message.messageDeliveryTime ?? message.creationTime),
      text: textOf(message).slice(0, 200_000),
      within,
    });
    for (const [index, attachment] of (message.attachments ?? []).entries()) {
      const { fileName, content } = withinTime(seconds, () => reader.getAttachment(attachment));
      const inline = attachment.attachmentHidden === true || attachment.pidContentId !== undefined;
      const inside = { name: shownName(fileName, `attachment ${index + 1}`), within };
      holding.write(inline ? { ...inside, inline: true } : inside, content);
    }
  } catch {
    throw refused(
      name,
      'is an Outlook message that breaks off or is damaged.',
      'Open it in your mail program and save its attachments from there.',
    );
  }
}
