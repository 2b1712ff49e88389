import forge from 'node-forge';
import { afterAll, describe, expect, it } from 'vitest';
import type { SealReading } from '../../../core/vocabulary/seals.ts';
import { bench } from '../keeping.ts';
import { onePage, throughQpdf } from '../make-pdf.ts';
import { sealed, signerOf } from './make-sealed.ts';

const at = bench();
afterAll(() => at.clear());

const survey = onePage();
const ana = signerOf('Ana Ruiz, PLS');

async function sealsOf(bytes: Uint8Array): Promise<readonly SealReading[]> {
  const { rendition } = await at.keep(bytes, 'survey.pdf');
  expect(rendition.sealed).toBe(true);
  return rendition.seals ?? [];
}

/** The text in the place of the last such text: same length, so that nothing moves. */
function exchanged(bytes: Buffer, from: string, to: string): Buffer {
  const at = bytes.lastIndexOf(from, undefined, 'latin1');
  if (at < 0 || from.length !== to.length) throw new Error(`"${from}" can't be exchanged`);
  const copy = Buffer.from(bytes);
  copy.write(to, at, 'latin1');
  return copy;
}

describe('reading a seal', () => {
  it('tells who signed when, that the bytes are unchanged, and what that does not prove', async () => {
    const [seal, ...others] = await sealsOf(await sealed(survey, ana));
    expect(others).toEqual([]);
    expect(seal).toMatchObject({
      sort: 'signature',
      format: 'adbe.pkcs7.detached',
      signer: 'Ana Ruiz, PLS',
      reason: 'Boundary survey',
      signedAt: { instant: '2026-03-14T15:09:26.000Z', by: "signer's clock" },
      bytes: 'unchanged',
      covers: 'whole file',
      laterBytes: 0,
      certificate: {
        subject: 'CN=Ana Ruiz, PLS, O=Brackenfold Surveying',
        serial: '4711',
        from: '2026-01-01T00:00:00.000Z',
        until: '2028-01-01T00:00:00.000Z',
        selfIssued: true,
      },
    });
    expect(seal?.says.join(' ')).toMatch(/unchanged since.*whole file.*proves neither a licence nor an approval/);
    expect(seal?.says[0]).toMatch(/issued by its holder/);
  });

  it('names an issuer of its own', async () => {
    const { privateKey } = forge.pki.rsa.generateKeyPair(1024);
    const [seal] = await sealsOf(
      await sealed(survey, signerOf('Bo Lind, PE', { name: 'State board', key: privateKey })),
    );
    expect(seal).toMatchObject({ bytes: 'unchanged', certificate: { issuer: 'CN=State board', selfIssued: false } });
  });

  it('notices one altered byte', async () => {
    const altered = exchanged(await sealed(survey, ana), 'Septic permit 4711', 'Septic permit 4712');
    const [seal] = await sealsOf(altered);
    expect(seal).toMatchObject({ bytes: 'changed', covers: 'whole file' });
    expect(seal?.says[1]).toMatch(/changed after it was signed/);
  });

  it('notices a signature value that was tampered with', async () => {
    const signed = await sealed(survey, ana);
    // The last bytes of the value before the padding are the signature itself.
    const start = signed.lastIndexOf('/Contents <', undefined, 'latin1') + 11;
    const end = signed.indexOf('>', start, 'latin1');
    const hex = signed.toString('latin1', start, end).replace(/0+$/, '');
    const spot = start + hex.length - 20;
    const copy = Buffer.from(signed);
    copy.write(copy.toString('latin1', spot, spot + 1) === 'a' ? 'b' : 'a', spot, 'latin1');
    expect((await sealsOf(copy))[0]?.bytes).toBe('changed');
  });

  it('tells that bytes were added after it', async () => {
    const signed = await sealed(survey, ana);
    const later = Buffer.concat([signed, Buffer.from('\n% one more line for everyone\n')]);
    const [seal] = await sealsOf(later);
    expect(seal).toMatchObject({
      bytes: 'unchanged',
      covers: 'earlier state',
      laterBytes: later.length - signed.length,
    });
  });

  it('reads two signatures: the first covers an earlier state, the second all of it', async () => {
    const twice = await sealed(await sealed(survey, ana), signerOf('Bo Lind, PE'));
    const seals = await sealsOf(twice);
    expect(seals.map(({ signer, bytes, covers }) => [signer, bytes, covers])).toEqual([
      ['Ana Ruiz, PLS', 'unchanged', 'earlier state'],
      ['Bo Lind, PE', 'unchanged', 'whole file'],
    ]);
  });

  it('reads the European form as well', async () => {
    const [seal] = await sealsOf(await sealed(survey, ana, 'ETSI.CAdES.detached'));
    expect(seal).toMatchObject({ format: 'ETSI.CAdES.detached', bytes: 'unchanged' });
  });

  it('says that nothing can be told where the file was rewritten around the signature', async () => {
    const [seal] = await sealsOf(
      await throughQpdf(await sealed(survey, ana), ['--object-streams=generate', '--warning-exit-0']),
    );
    expect(seal?.bytes).not.toBe('unchanged');
    expect(seal?.covers).toBe('parts');
  });

  it.each([
    ['leads out of the file', '[ 0 10 20 99999999 ]'],
    ['bites back', '[ 0 300 100 50 ]'],
    ['leaves out more than the signature', '[ 0 10 300 20 ]'],
    ['is odd in number', '[ 0 10 30 ]'],
    ['begins later', '[ 5 10 30 10 ]'],
    ['is negative', '[ 0 -10 30 10 ]'],
    ['is missing', ''],
  ])('takes a ByteRange that %s for what it is: no cover', async (_what, range) => {
    const field = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ 6 0 R ]',
      catalog: '/AcroForm << /Fields [ 6 0 R ] /SigFlags 3 >>',
      more: {
        6: '<< /Type /Annot /Subtype /Widget /FT /Sig /T (seal) /V 8 0 R /Rect [ 0 0 0 0 ] /F 4 /P 3 0 R >>',
        8: `<< /Type /Sig /Filter /Adobe.PPKLite /SubFilter /adbe.pkcs7.detached ${range === '' ? '' : `/ByteRange ${range}`} /Contents <00ff> >>`,
      },
    });
    const [seal] = await sealsOf(field);
    expect(seal).toMatchObject({ bytes: 'not checked', covers: 'parts' });
    expect(seal?.says.join(' ')).toMatch(/can not be told here.*only parts of the file/);
  });

  it('says nothing of seals where there is none', async () => {
    const { rendition } = await at.keep(survey, 'survey.pdf');
    expect(rendition.sealed).toBe(false);
    expect(rendition.seals).toBeUndefined();
  });
});
