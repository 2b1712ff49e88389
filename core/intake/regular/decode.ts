import { constants, inflateRawSync, inflateSync } from 'node:zlib';
import { decodePDFRawStream, PDFContext, PDFRawStream } from 'pdf-lib';
import { type Dict, isDict, isList, nameOf, type Value } from './values.ts';

/** A content stream that unpacks to more than this is a bomb, not a page. */
const largest = 256 * 1024 * 1024;

const longNames: Readonly<Record<string, string>> = {
  Fl: 'FlateDecode',
  LZW: 'LZWDecode',
  A85: 'ASCII85Decode',
  AHx: 'ASCIIHexDecode',
  RL: 'RunLengthDecode',
};

/** Damaged or cut streams give what can be had, as the readers do. */
function inflate(bytes: Uint8Array): Buffer {
  const options = { finishFlush: constants.Z_SYNC_FLUSH, maxOutputLength: largest };
  try {
    return inflateSync(bytes, options);
  } catch {
    return inflateRawSync(bytes.subarray(2), options);
  }
}

function decodeOdd(filter: string, parms: Dict, bytes: Uint8Array): Uint8Array {
  const context = PDFContext.create();
  const early = parms.get('EarlyChange');
  const dict = context.obj({
    Filter: filter,
    ...(typeof early === 'number' ? { DecodeParms: { EarlyChange: early } } : {}),
  });
  return decodePDFRawStream(PDFRawStream.of(dict, bytes)).decode();
}

function predicted(parms: Dict): boolean {
  const predictor = parms.get('Predictor');
  return typeof predictor === 'number' && predictor > 1;
}

/**
 * Unpacks a content stream (direct filter names and parameters, as the regular dialect mostly has them).
 * @throws Error where a filter is none a content stream may have, or the data is damaged.
 */
export function decodeContent(dict: Dict, bytes: Uint8Array, resolve: (value: Value | undefined) => Value): Uint8Array {
  const filter = resolve(dict.get('Filter'));
  const parms = resolve(dict.get('DecodeParms'));
  const filters = isList(filter) ? filter : [filter];
  const parmsList = isList(parms) ? parms : [parms];
  return filters.reduce<Uint8Array>((data, item, index) => {
    const short = nameOf(resolve(item));
    if (short === undefined) return data;
    const given = resolve(parmsList[index]);
    const own: Dict = isDict(given) ? given : new Map();
    if (predicted(own)) throw new Error('The content is packed with a predictor.');
    const name = longNames[short] ?? short;
    if (name === 'FlateDecode') return inflate(data);
    if (Object.values(longNames).includes(name)) return decodeOdd(name, own, data);
    throw new Error(`The content is packed with ${name}.`);
  }, bytes);
}
