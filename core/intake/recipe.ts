/**
 * What made a rendition, written into it: a rendition is only ever compared with one of the same recipe and tools.
 * A test holds these against the packages that are installed.
 */
export const tools = {
  qpdf: '12.2.0',
  qpdfWasm: '0.3.0',
  pdfium: '2.15.1',
  sharp: '0.35.5',
  libheif: '1.23.2',
  utif2: '4.1.0',
  pdfLib: '2.11.1',
} as const;

/** Raised whenever the way of keeping or measuring changes what comes out. */
export const recipeNumber = 2;

export const pdfTool = `qpdf ${tools.qpdf} (qpdf-wasm ${tools.qpdfWasm}), pdfium ${tools.pdfium}`;
export const pictureTool = `sharp ${tools.sharp}, pdfium ${tools.pdfium}`;

/** What filled a form: the maintained fork of pdf-lib. */
export const formTool = `cantoo pdf-lib ${tools.pdfLib}, pdfium ${tools.pdfium}`;

/** What decoded a sort that sharp does not read. */
export const heicTool = `libheif ${tools.libheif}, ${pictureTool}`;
export const bmpTool = `our own BMP reader, ${pictureTool}`;
export const oddTiffTool = `utif2 ${tools.utif2}, ${pictureTool}`;

export const recipes = {
  pdf: `pdf/${recipeNumber}: rewritten as a regular file, streams untouched`,
  pdfReSaved: `pdf/${recipeNumber}: saved anew by a second reader, then rewritten as a regular file`,
  pdfFields: `pdf/${recipeNumber}: fields drawn and saved anew by a second reader, then rewritten as a regular file`,
  pdfImported: `pdf/${recipeNumber}: pages brought into a new file by a second reader, then rewritten as a regular file`,
  pdfPictures: `pdf/${recipeNumber}: pages drawn as pictures at up to 200 dots an inch`,
  jpeg: `jpeg/${recipeNumber}: picture data untouched, camera notes left out`,
  jpegAnew: `jpeg/${recipeNumber}: colours turned into sRGB, encoded anew at quality 92`,
  png: `png/${recipeNumber}: pixels untouched, laid on white`,
  dots: `picture/${recipeNumber}: pixels untouched, laid on white`,
  twoTone: `fax/${recipeNumber}: black and white, pixels untouched`,
  photo: `photo/${recipeNumber}: decoded, encoded as JPEG`,
  secondReader: `picture/${recipeNumber}: decoded by a second reader`,
  rareSamples: `picture/${recipeNumber}: samples turned into 8 bits of screen colours`,
  cleaned: `picture/${recipeNumber}: cleaned up as asked`,
} as const;
