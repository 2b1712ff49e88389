import type { FileSort } from '../sniff.ts';

/** The job handed to the worker program: a file that holds files. */
export interface UnpackJob {
  readonly job: 'unpack';
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
  /** An empty folder of its own; files are numbered there, never named as told. */
  readonly output: string;
}

/** One file that was inside. */
export interface UnpackedFile {
  /** As told, without folders and control characters. */
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
  readonly sort: FileSort;
  /** The folder, ZIP or e-mail inside the file that it stood in. */
  readonly within?: string | undefined;
  /** It stands inside the e-mail's body: mostly a logo, sometimes a photo. */
  readonly inline?: true | undefined;
}

/** An e-mail as a note: who wrote what when. Never rendered, links never followed. */
export interface MailNote {
  readonly from?: string | undefined;
  readonly to: readonly string[];
  readonly cc: readonly string[];
  readonly subject?: string | undefined;
  /** Instant, ISO 8601; undefined where the e-mail tells none that can be read. */
  readonly date?: string | undefined;
  /** Plain text; taken from the HTML body, without its looks, where there is no other. */
  readonly text: string;
  readonly within?: string | undefined;
}

/** Something inside that is not offered, and why: finishes `"name" ...`. */
export interface LeftInside {
  readonly name: string;
  readonly why: string;
}

export interface UnpackDone {
  readonly sort: 'e-mail' | 'zip';
  /** The e-mail first, then those inside it. Empty for a ZIP without e-mails. */
  readonly mails: readonly MailNote[];
  readonly files: readonly UnpackedFile[];
  readonly left: readonly LeftInside[];
}

/** What may hold files: offer to unpack it. An Outlook message looks like an office file at its beginning. */
export function mayHoldFiles(sort: FileSort): boolean {
  return sort === 'e-mail' || sort === 'zip' || sort === 'office';
}
