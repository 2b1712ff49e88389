import { LotfileError } from '../vocabulary/errors.ts';
import type { PictureSort } from './pictures/picture-model.ts';
import type { FileSort } from './sniff.ts';

const askAgain = 'Ask whoever sent it for the file again, or scan the paper, and drop that in.';

type Unkept = Exclude<FileSort, 'pdf' | PictureSort>;

const bySort: Readonly<Record<Unkept, readonly [say: string, next: string]>> = {
  empty: ['holds no bytes at all.', 'The download or the copy broke off: fetch it again.'],
  'web page': [
    'is a web page, not a document; often the sign-in page of the site it was fetched from.',
    'Open the site, sign in, and download the document itself.',
  ],
  zip: ['is a ZIP folder.', 'Unpack it and keep the files inside.'],
  office: ['is a word-processor or spreadsheet file.', 'Open it, save it as PDF, and drop in the PDF.'],
  rtf: ['is a word-processor file.', 'Open it, save it as PDF, and drop in the PDF.'],
  text: ['is plain text.', 'Print it to PDF and drop in the PDF.'],
  'e-mail': ['is an e-mail.', 'Unpack it and keep its attachments.'],
  unknown: ['is neither a PDF nor a picture.', askAgain],
};

/** A refusal: `"name" <say>`, with what to do next. */
export function refused(name: string, say: string, next: string = askAgain): LotfileError {
  return new LotfileError('file refused', `"${name}" ${say}`, { about: name, next });
}

/** Why a file of this sort is not kept. */
export function refusedSort(name: string, sort: Unkept): LotfileError {
  const [say, next] = bySort[sort];
  return refused(name, say, next);
}
