import { onePage, pdfOf, words } from '../make-pdf.ts';
import { sound, type Trouble } from './trouble.ts';

const refused = (say: RegExp) => ({ refused: say });

/** What comes under the name of a paper and is none: a sentence each, and what to do next. */
export const noPaper: readonly Trouble[] = [
  {
    what: 'a page of 30 million inches (a find of the fuzz)',
    make: () => onePage({ page: '/MediaBox [ 0 2147483648 612 792 ]' }),
    ends: refused(/page 1 claims to be larger than any sheet/),
  },
  { what: 'no bytes', make: () => Buffer.alloc(0), ends: refused(/holds no bytes/) },
  {
    what: 'a web page inside',
    make: () => Buffer.from('<!DOCTYPE html><html><body>Sign in</body></html>'),
    ends: refused(/is a web page/),
  },
  { what: 'a header and nothing else', make: () => Buffer.from('%PDF-1.7\nrubbish'), ends: refused(/breaks off/) },
  { what: 'only its first half', make: () => sound.subarray(0, 60), ends: refused(/breaks off/) },
  { what: 'zeros inside', make: () => Buffer.alloc(5000), ends: refused(/neither a PDF nor a picture/) },
  {
    what: 'no pages',
    make: () => pdfOf({ 1: '<< /Type /Catalog /Pages 2 0 R >>', 2: '<< /Type /Pages /Kids [] /Count 0 >>' }),
    ends: refused(/has no pages/),
  },
  {
    what: 'a catalog without pages',
    make: () => pdfOf({ 1: '<< /Type /Catalog >>' }),
    ends: refused(/no pages|damaged/),
  },
  {
    what: 'other files wrapped inside (a portfolio)',
    make: () => onePage({ catalog: '/Collection << /Type /Collection /View /D >>' }),
    ends: refused(/wrapper round other files/),
  },
  {
    what: 'a form that only its own program can draw (XFA alone)',
    make: () =>
      onePage({
        content: words('Please wait...'),
        catalog: '/NeedsRendering true /AcroForm << /Fields [] /XFA 6 0 R >>',
        more: { 6: '<< /Length 6 >>\nstream\n<xdp/>\nendstream' },
      }),
    ends: refused(/"please wait" sheet/),
  },
  {
    what: 'a sheet that asks for another program',
    make: () =>
      onePage({
        content: words('Please wait... If this message is not eventually replaced'),
        catalog: '/AcroForm << /Fields [] /XFA 6 0 R >>',
        more: { 6: '<< /Length 6 >>\nstream\n<xdp/>\nendstream' },
      }),
    ends: refused(/"please wait" sheet/),
  },
  {
    what: 'plain words inside',
    make: () => Buffer.from('Dear clerk,\nplease find enclosed\n'),
    ends: refused(/is plain text/),
  },
  {
    what: 'a word processor\u2019s bytes',
    make: () => Buffer.from('{\\rtf1 Dear clerk}'),
    ends: refused(/word-processor/),
  },
];
