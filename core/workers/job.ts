import type { FillFormDone, FillFormJob } from '../forms/file/fill-blank.ts';
import type { ReadFormDone, ReadFormJob } from '../forms/file/read-blank.ts';
import type { UnpackDone, UnpackJob } from '../intake/mail/unpack-model.ts';
import type {
  ReadDone,
  ReadJob,
  SuggestDone,
  SuggestJob,
  WriteOutDone,
  WriteOutJob,
} from '../intake/ocr/read-model.ts';
import type { GlimpseDone, GlimpseJob } from '../intake/pictures/glimpse-model.ts';
import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';
import type { SlimDone, SlimJob } from '../intake/slim/slim-model.ts';

/** What a worker can be told to do, and what it brings back. */
export type Job =
  | KeepJob
  | ReadJob
  | WriteOutJob
  | SuggestJob
  | GlimpseJob
  | UnpackJob
  | SlimJob
  | ReadFormJob
  | FillFormJob;
export type Done =
  | KeepDone
  | ReadDone
  | WriteOutDone
  | SuggestDone
  | GlimpseDone
  | UnpackDone
  | SlimDone
  | ReadFormDone
  | FillFormDone;
