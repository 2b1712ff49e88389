import { createTransport } from 'nodemailer';

/** Written by another library than the one that reads it. */
export async function mailOf(mail: object): Promise<Buffer> {
  const sent = await createTransport({ streamTransport: true, buffer: true, newline: 'windows' }).sendMail({
    from: { name: 'Ana Ruíz', address: 'ana@permits.example' },
    to: ['owner@example.org'],
    subject: 'Permit – reviewed',
    date: new Date('2026-03-14T15:09:26Z'),
    ...mail,
  });
  if (!Buffer.isBuffer(sent.message)) throw new Error('no mail was written');
  return sent.message;
}
