import { z } from 'zod';
import type { MailNote, UnpackDone, UnpackJob } from '../intake/mail/unpack-model.ts';
import type { SlimDone, SlimJob } from '../intake/slim/slim-model.ts';
import { fileSorts } from '../intake/sniff.ts';
import type { SealReading } from '../vocabulary/seals.ts';

const text = z.string();

/** One signature, as the worker read it. */
export const sealReading = z.object({
  sort: z.enum(['signature', 'time stamp']),
  format: text,
  signer: text.optional(),
  certificate: z
    .object({ subject: text, issuer: text, serial: text, from: text, until: text, selfIssued: z.boolean() })
    .optional(),
  reason: text.optional(),
  signedAt: z.object({ instant: text, by: z.enum(['time stamp', "signer's clock"]) }).optional(),
  bytes: z.enum(['unchanged', 'changed', 'not checked']),
  covers: z.enum(['whole file', 'earlier state', 'parts']),
  laterBytes: z.number(),
  says: z.array(text).readonly(),
}) satisfies z.ZodType<SealReading>;

const mailNote = z.object({
  from: text.optional(),
  to: z.array(text).readonly(),
  cc: z.array(text).readonly(),
  subject: text.optional(),
  date: text.optional(),
  text,
  within: text.optional(),
}) satisfies z.ZodType<MailNote>;

export const unpackDone = z.object({
  sort: z.enum(['e-mail', 'zip']),
  mails: z.array(mailNote).readonly(),
  files: z
    .array(
      z.object({
        name: text,
        path: text,
        bytes: z.number(),
        sort: z.enum(fileSorts),
        within: text.optional(),
        inline: z.literal(true).optional(),
      }),
    )
    .readonly(),
  left: z.array(z.object({ name: text, why: text })).readonly(),
}) satisfies z.ZodType<UnpackDone>;

export const unpackJob = z.object({
  job: z.literal('unpack'),
  input: text,
  name: text,
  output: text,
}) satisfies z.ZodType<UnpackJob>;

export const slimDone = z.object({
  before: z.number(),
  after: z.number(),
  sha256: text.regex(/^[0-9a-f]{64}$/),
  fits: z.boolean(),
  recipe: text,
  tool: text,
  pages: z.array(z.object({ page: z.number(), before: z.number(), after: z.number() })).readonly(),
  notes: z.array(text).readonly(),
}) satisfies z.ZodType<SlimDone>;

export const slimJob = z.object({
  job: z.literal('slim'),
  input: text,
  name: text,
  output: text,
  most: z.number(),
  sealed: z.boolean(),
}) satisfies z.ZodType<SlimJob>;
