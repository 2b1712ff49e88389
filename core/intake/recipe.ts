/**
 * What made a rendition, written into it: a rendition is only ever compared with one of the same recipe and tools.
 * A test holds these against the packages that are installed.
 */
export const tools = {
  qpdf: '12.2.0',
  qpdfWasm: '0.3.0',
  pdfium: '2.15.1',
  sharp: '0.35.5',
} as const;

/** Raised whenever the way of keeping or measuring changes what comes out. */
export const recipeNumber = 2;

export const pdfTool = `qpdf ${tools.qpdf} (qpdf-wasm ${tools.qpdfWasm}), pdfium ${tools.pdfium}`;
export const pictureTool = `sharp ${tools.sharp}, pdfium ${tools.pdfium}`;

export const recipes = {
  pdf: `pdf/${recipeNumber}: rewritten as a regular file, streams untouched`,
  pdfReSaved: `pdf/${recipeNumber}: saved anew by a second reader, then rewritten as a regular file`,
  pdfFields: `pdf/${recipeNumber}: fields drawn and saved anew by a second reader, then rewritten as a regular file`,
  pdfImported: `pdf/${recipeNumber}: pages brought into a new file by a second reader, then rewritten as a regular file`,
  pdfPictures: `pdf/${recipeNumber}: pages drawn as pictures at up to 200 dots an inch`,
  jpeg: `jpeg/${recipeNumber}: picture data untouched, camera notes left out`,
  jpegAnew: `jpeg/${recipeNumber}: colours turned into sRGB, encoded anew at quality 92`,
  png: `png/${recipeNumber}: pixels untouched, laid on white`,
} as const;
