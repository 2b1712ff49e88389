import type { LotfileError } from '../../vocabulary/errors.ts';
import { frameOf } from './jpeg-parts.ts';
import { otherSort } from './limits.ts';

/** By the number in SOFn (ITU-T T.81, table B.1), what hardly any program but those of one trade reads. */
function rareFrame(frame: number): string | undefined {
  if (frame === 3) return 'is a JPEG without loss, as medical and camera programs write it.';
  // T.81 annex J: frames that build on one another; 13 to 15 the same with arithmetic coding.
  if ([5, 6, 7, 13, 14, 15].includes(frame)) return 'is a JPEG in several layers, which no reader here takes.';
  if (frame === 11) return 'is a JPEG without loss, as medical and camera programs write it.';
  // T.87, JPEG-LS: marker F7.
  return frame === 0x37 ? 'is a JPEG-LS, as medical programs write it.' : undefined;
}

/**
 * A sound JPEG that the usual decoder can't take: more than 8 bits a colour (T.81 allows 12 in extended frames), or
 * coded as hardly anybody codes. Undefined for every other one, the damaged among them.
 */
export function rareJpeg(bytes: Buffer, name: string): LotfileError | undefined {
  const { frame, precision } = frameOf(bytes) ?? {};
  if (frame === undefined) return undefined;
  const said = rareFrame(frame);
  if (said !== undefined) return otherSort(name, said);
  return precision === 12
    ? otherSort(name, 'is a JPEG of 12 bits a colour, as medical and survey cameras write it.')
    : undefined;
}
