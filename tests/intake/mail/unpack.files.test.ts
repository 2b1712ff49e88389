import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { Holding } from '../../../core/intake/mail/holding.ts';
import { readZip } from '../../../core/intake/mail/read-zip.ts';
import { leadsRound } from '../../../core/intake/mail/sector-chains.ts';
import { unpackFile } from '../../../core/intake/mail/unpack-file.ts';
import { bench } from '../keeping.ts';
import { onePage } from '../make-pdf.ts';
import { drawnL } from '../make-pictures.ts';
import { mailOf } from './make-mail.ts';
import { messageOf } from './make-message.ts';
import { zipOf } from './make-zip.ts';

const at = bench();
afterAll(() => at.clear());

let count = 0;
async function unpacked(bytes: Uint8Array, name: string) {
  count += 1;
  const [input, output] = [at.path(`in-${count}`), at.path(`out-${count}`)];
  writeFileSync(input, bytes);
  mkdirSync(output);
  const done = await unpackFile({ job: 'unpack', input, name, output });
  return { ...done, output };
}

const deed = onePage();
const plainZip = zipOf([{ name: 'a.pdf', data: deed }]);

/** The end of a ZIP (APPNOTE 4.3.16): disk number at 4, where the list of files begins at 16. */
function partOfMany(): Buffer {
  const bytes = Buffer.from(plainZip);
  bytes.writeUInt16LE(2, bytes.length - 22 + 4);
  return bytes;
}

function noList(): Buffer {
  const bytes = Buffer.from(plainZip);
  bytes.writeUInt32LE(3, bytes.length - 22 + 16);
  return bytes;
}

describe('taking an e-mail apart', () => {
  it('gives the e-mail as a note and each attachment as a file, byte for byte', async () => {
    const photo = await drawnL(60, 40).jpeg().toBuffer();
    const { sort, mails, files, left } = await unpacked(
      await mailOf({
        cc: 'Bo <bo@example.org>, cy@example.org',
        text: 'Your permit is attached.\nCall before you dig.',
        html: '<p>never <b>shown</b></p>',
        attachments: [
          { filename: 'permit – final.pdf', content: deed },
          { filename: 'lot.jpg', content: photo },
        ],
      }),
      'mail.eml',
    );
    expect(sort).toBe('e-mail');
    expect(left).toEqual([]);
    expect(mails).toEqual([
      {
        from: 'Ana Ruíz <ana@permits.example>',
        to: ['owner@example.org'],
        cc: ['Bo <bo@example.org>', 'cy@example.org'],
        subject: 'Permit – reviewed',
        date: '2026-03-14T15:09:26.000Z',
        text: 'Your permit is attached.\nCall before you dig.',
        within: undefined,
      },
    ]);
    expect(files.map(({ name, sort: what, bytes }) => [name, what, bytes])).toEqual([
      ['permit – final.pdf', 'pdf', deed.length],
      ['lot.jpg', 'jpeg', photo.length],
    ]);
    expect(readFileSync(files[0]?.path ?? '')).toEqual(deed);
  });

  it('takes the words out of an HTML body and runs none of it', async () => {
    const html =
      '<html><head><title>t</title><style>p{}</style></head><body><p>Fee &amp; date:&nbsp;240</p><script>alert(1)</script><img src="http://tracker.example/x.png"><p>Good&#8209;bye &lt;b&gt;</p></body></html>';
    const { mails, files } = await unpacked(await mailOf({ html }), 'mail.eml');
    expect(mails[0]?.text).toBe('Fee & date: 240\nGood\u2011bye <b>');
    expect(files).toEqual([]);
  });

  it('marks what stands inside the body, and opens what was forwarded', async () => {
    const inner = await mailOf({
      subject: 'First',
      text: 'inner',
      attachments: [{ filename: 'a.pdf', content: deed }],
    });
    const { mails, files } = await unpacked(
      await mailOf({
        html: '<img src="cid:logo">',
        attachments: [
          { filename: 'logo.png', cid: 'logo', content: await drawnL(20, 20).png().toBuffer() },
          { filename: 'forwarded.eml', contentType: 'message/rfc822', content: inner },
        ],
      }),
      'mail.eml',
    );
    expect(mails.map(({ subject, within }) => [subject, within])).toEqual([
      ['Permit – reviewed', undefined],
      ['First', 'forwarded.eml'],
    ]);
    expect(files.map(({ name, inline, within }) => [name, inline, within])).toEqual([
      ['logo.png', true, undefined],
      ['a.pdf', undefined, 'forwarded.eml'],
    ]);
  });

  it('tells why a signature and a wrapper of one mail program are left', async () => {
    const { files, left } = await unpacked(
      await mailOf({
        text: 'x',
        attachments: [
          { filename: 'smime.p7s', contentType: 'application/pkcs7-signature', content: 'x' },
          { filename: 'winmail.dat', contentType: 'application/ms-tnef', content: 'x' },
        ],
      }),
      'mail.eml',
    );
    expect(files).toEqual([]);
    expect(left.map(({ name, why }) => `${name} ${why}`)).toEqual([
      expect.stringMatching(/^smime.p7s is the e-mail's own signature/),
      expect.stringMatching(/^winmail.dat is a wrapper.*ask the sender/),
    ]);
  });

  it('writes numbered files only, whatever an attachment is called', async () => {
    const { files, output } = await unpacked(
      await mailOf({ attachments: [{ filename: '../../etc/pass\u202ewd.pdf', content: deed }] }),
      'mail.eml',
    );
    expect(files[0]?.name).toBe('passwd.pdf');
    expect(readdirSync(output)).toEqual(['0001']);
  });

  it('reads an Outlook message', async () => {
    const { mails, files } = await unpacked(messageOf('Deed', 'Here it is.', [['deed.pdf', deed]]), 'mail.msg');
    expect(mails[0]).toMatchObject({ subject: 'Deed', text: 'Here it is.' });
    expect(files.map(({ name, sort }) => [name, sort])).toEqual([['deed.pdf', 'pdf']]);
    expect(readFileSync(files[0]?.path ?? '')).toEqual(deed);
  });

  it('refuses a message that is damaged, and leaves nothing behind', async () => {
    const whole = messageOf('Deed', 'x', [['deed.pdf', Buffer.alloc(9000)]]);
    // Its header leads nowhere.
    const bytes = Buffer.from(whole).fill(0xee, 24, 80);
    await expect(unpacked(bytes, 'mail.msg')).rejects.toMatchObject({ code: 'file refused', about: 'mail.msg' });
    expect(readdirSync(join(at.folder, `out-${count}`))).toEqual([]);
  });
});

describe('taking a ZIP apart', () => {
  it('gives its files with the folders they stood in, without what systems add', async () => {
    const { sort, files, left } = await unpacked(
      zipOf([
        { name: 'Permits/', data: Buffer.alloc(0), method: 0 },
        { name: 'Permits/2026/deed.pdf', data: deed },
        { name: 'Permits/plan.pdf', data: deed, method: 0 },
        { name: '__MACOSX/Permits/._plan.pdf', data: Buffer.from('x') },
        { name: 'Permits/.DS_Store', data: Buffer.from('x') },
      ]),
      'papers.zip',
    );
    expect(sort).toBe('zip');
    expect(files.map(({ name, within, sort: what }) => [name, within, what])).toEqual([
      ['deed.pdf', 'Permits/2026', 'pdf'],
      ['plan.pdf', 'Permits', 'pdf'],
    ]);
    expect(left).toEqual([]);
    for (const { path } of files) expect(readFileSync(path)).toEqual(deed);
  });

  it.each(['../../../home/deed.pdf', '/etc/deed.pdf', 'C:\\Windows\\deed.pdf', '..\\..\\deed.pdf'])(
    'never follows the name %s',
    async (name) => {
      const { files, output } = await unpacked(zipOf([{ name, data: deed }]), 'slip.zip');
      expect(files.map((file) => [file.name, file.path])).toEqual([['deed.pdf', join(output, '0001')]]);
    },
  );

  it('leaves bombs, locked and oddly packed files, tells why, and gives the rest', async () => {
    const { files, left } = await unpacked(
      zipOf([
        { name: 'bomb.tif', data: Buffer.alloc(70 * 1024 * 1024) },
        { name: 'locked.pdf', data: deed, flags: 0x801 },
        { name: 'odd.pdf', data: deed, method: 14 },
        { name: 'short.pdf', data: deed, claims: 40 },
        { name: 'long.pdf', data: deed, claims: deed.length + 9 },
        { name: 'link.pdf', data: Buffer.from('../../deed.pdf'), method: 0, mode: 0o120777 },
        { name: 'sizeless.pdf', data: deed, claims: 0xffffffff },
        { name: 'good.pdf', data: deed },
      ]),
      'mixed.zip',
    );
    expect(files.map(({ name }) => name)).toEqual(['good.pdf']);
    expect(left.map(({ name, why }) => [name, why])).toEqual([
      ['bomb.tif', expect.stringMatching(/far more than any paper/)],
      ['locked.pdf', expect.stringMatching(/locked with a password/)],
      ['odd.pdf', expect.stringMatching(/not read here/)],
      ['short.pdf', expect.stringMatching(/unpacks to more than the ZIP says/)],
      ['long.pdf', expect.stringMatching(/unpacks to less than the ZIP says/)],
      ['link.pdf', expect.stringMatching(/only a link/)],
      ['sizeless.pdf', expect.stringMatching(/far more than any paper/)],
    ]);
  });

  it('opens what is packed inside, three deep and no deeper', async () => {
    const wrap = (name: string, data: Buffer) => zipOf([{ name, data }]);
    const three = wrap('1.zip', wrap('2.zip', wrap('3.zip', wrap('deed.pdf', deed))));
    const shallow = await unpacked(three, 'deep.zip');
    expect(shallow.files.map(({ name, within }) => [name, within])).toEqual([['deed.pdf', '1.zip / 2.zip / 3.zip']]);
    const deeper = await unpacked(wrap('0.zip', three), 'deeper.zip');
    expect(deeper.files).toEqual([]);
    expect(deeper.left).toEqual([{ name: '3.zip', why: expect.stringMatching(/more than three times/) }]);
  });

  it('reads an e-mail inside it, and leaves a broken ZIP inside with its reason', async () => {
    const mail = await mailOf({ text: 'x', attachments: [{ filename: 'a.pdf', content: deed }] });
    const { mails, files, left } = await unpacked(
      zipOf([
        { name: 'in/mail.eml', data: mail },
        { name: 'bad.zip', data: zipOf([{ name: 'a', data: deed }]).subarray(0, 60) },
      ]),
      'box.zip',
    );
    expect(mails.map(({ subject, within }) => [subject, within])).toEqual([['Permit – reviewed', 'in / mail.eml']]);
    expect(files.map(({ name }) => name)).toEqual(['a.pdf']);
    expect(left).toEqual([{ name: 'bad.zip', why: expect.stringMatching(/breaks off before its list/) }]);
  });

  it.each([
    ['breaks off', plainZip.subarray(0, 200), /breaks off before its list of files/],
    ['has its list locked', zipOf([{ name: 'a.pdf', data: deed, flags: 0x841 }]), /whose list of files is locked/],
    ['is a part of many', partOfMany(), /one part of a ZIP that was split up/],
    ['goes on after its end', Buffer.concat([plainZip, Buffer.from('more')]), /something else hung on/],
    ['tells two sizes', zipOf([{ name: 'a.pdf', data: deed, method: 0, claims: 7 }]), /tells no sizes that can be/],
    ['leads nowhere', noList(), /whose list of files is damaged/],
    ['is no holder of files', deed, /holds no files to take out/],
  ])('refuses a file that %s', async (_what, bytes, say) => {
    await expect(unpacked(bytes, 'bad.zip')).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringMatching(say),
    });
  });
});

it('a disk that is not there is told as such, not as a damaged ZIP', async () => {
  const holding = new Holding(at.path('no-such-folder'));
  const path = at.path('papers.zip');
  writeFileSync(path, plainZip);
  const told = 'The files inside the ZIP could not be taken out: the disk would not read or write.';
  for (const zip of [path, `${path}.gone`]) {
    await expect(readZip(zip, 'papers.zip', { holding, within: undefined })).rejects.toMatchObject({
      code: 'disk',
      message: told,
    });
  }
});

it('an Outlook message whose sectors lead round in a circle is refused at once, as no sound one does', async () => {
  const sound = Buffer.from(messageOf('Permit', 'Approved.', []));
  expect(leadsRound(sound)).toBe(false);
  const round = Buffer.from(sound);
  // MS-CFB 2.2: where the table begins; 2.3: each entry names the sector that follows. The first follows itself.
  round.writeUInt32LE(0, (round.readUInt32LE(0x4c) + 1) * 512);
  expect(leadsRound(round)).toBe(true);
  await expect(unpacked(round, 'round.msg')).rejects.toMatchObject({ code: 'file refused', about: 'round.msg' });
});
