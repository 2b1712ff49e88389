import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { folderName } from '../../electron/host/lot-folder.ts';
import { placeInWords } from '../../electron/host/places.ts';
import { WindowHolds } from '../../electron/host/window-holds.ts';
import { type CookieKey, CookieKeys } from '../../electron/loopback/cookie-keys.ts';
import { makeToken, Session } from '../../electron/loopback/session.ts';
import { placeIn } from '../../electron/main/set-ups/menus.ts';
import { contentPolicy } from '../../electron/served/security-headers.ts';

describe('a lot’s folder', () => {
  it('is named after the lot, in letters every system takes', () => {
    expect(folderName('Hạnh’s house, Lot 7')).toBe('hanh-s-house-lot-7');
    expect(folderName('Đường Đê 12')).toBe('duong-de-12');
    expect(folderName('../../etc')).toBe('etc');
    expect(folderName('  ')).toBe('lot');
    expect(folderName('NUL')).toBe('lot-nul');
  });

  it('is a plain name whatever the title', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(0x10ffff), { maxLength: 80 }), (codes) => {
        const name = folderName(String.fromCodePoint(...codes));
        expect(name).not.toMatch(/[\\/:*?"<>|.\s\p{Cc}]|^-|-$|^$/u);
        expect(name.length).toBeLessThanOrEqual(64);
      }),
    );
  });

  // The paths below are POSIX's; Windows would read them as lying on the drive it stands on.
  it.skipIf(process.platform === 'win32')('is told as a person would tell it', () => {
    expect(placeInWords('/home/ann/Documents/Lotfile/ridge', '/home/ann')).toBe('ridge, in Documents › Lotfile');
    expect(placeInWords('/home/ann/ridge', '/home/ann')).toBe('ridge, in your home folder');
    expect(placeInWords('/media/stick/ridge', '/home/ann')).toBe('ridge, in /media/stick');
    expect(placeInWords('/home/annette/ridge', '/home/ann')).toBe('ridge, in /home/annette');
  });
});

describe('the holds of windows on a lot', () => {
  it('let it go when no window has it and nothing works in it, and not before', async () => {
    const holds = new WindowHolds();
    holds.open('a', '1');
    holds.open('a', '2');
    holds.open('b', '1');
    expect(holds.close('a', '1')).toBe(true);
    expect(holds.close('never opened', '1')).toBe(false);
    expect(holds.takeIdle()).toEqual([]);
    const work = Promise.withResolvers<void>();
    const working = holds.working('a', () => work.promise);
    holds.gone('2');
    expect(holds.takeIdle()).toEqual([]);
    work.resolve();
    await working;
    expect(holds.takeIdle()).toEqual(['a']);
    expect(holds.takeIdle()).toEqual([]);
    holds.gone('1');
    expect(holds.takeIdle()).toEqual(['b']);
  });
});

describe('a one-time token', () => {
  it('opens once, for its own port and run only, however it is altered', () => {
    const session = new Session({
      secret: 's'.repeat(43),
      port: 4000,
      keys: new CookieKeys(undefined, () => undefined),
      now: 1000,
    });
    const token = makeToken('s'.repeat(43), 4000, 2000);
    fc.assert(
      fc.property(fc.nat(token.length - 1), fc.constantFrom('x', '.', ''), (at, letter) => {
        const altered = token.slice(0, at) + letter + token.slice(at + 1);
        fc.pre(altered !== token);
        expect(session.takeToken(altered)).toBe(false);
      }),
    );
    expect(session.takeToken(token)).toBe(true);
    expect(session.takeToken(token)).toBe(false);
    expect(session.takeToken(makeToken('s'.repeat(43), 4001, 2000))).toBe(false);
    expect(session.takeToken(makeToken('s'.repeat(43), 4000, 999))).toBe(false);
  });

  it('and the cookie is found among others, whole or not at all', () => {
    const session = new Session({
      secret: 's'.repeat(43),
      port: 4000,
      keys: new CookieKeys(undefined, () => undefined),
    });
    const own = session.setCookie().split(';')[0] ?? '';
    expect(session.isKnown(`a=b; ${own}; c=d`)).toBe(true);
    for (const header of [undefined, '', 'a=b', `x${own}`, `${own}x`, own.replace('4000', '4001'), own.split('=')[1]]) {
      expect(session.isKnown(header)).toBe(false);
    }
  });
});

describe('a cookie', () => {
  const hour = 3_600_000;
  const cookieOf = (session: Session): string => session.setCookie().split(';')[0] ?? '';
  const begin = (kept: CookieKey | undefined, now: number) => {
    const saved: CookieKey[] = [];
    const keys = new CookieKeys(kept, (key) => saved.push(key), now);
    return { keys, saved, session: new Session({ secret: 's'.repeat(43), port: 4000, keys, now }) };
  };

  it('is another at every start; the one before it is exchanged for ten minutes and then lets nobody in', () => {
    const first = begin(undefined, Date.now() - hour);
    const second = begin(first.saved.at(-1), Date.now());
    const old = cookieOf(first.session);
    expect(old).not.toBe(cookieOf(second.session));
    expect(second.session.isKnown(old)).toBe(true);
    expect(second.session.renewal(old)).toEqual({ 'set-cookie': second.session.setCookie() });
    expect(second.session.renewal(cookieOf(second.session))).toEqual({});
    expect(second.session.renewal('lotfile-4000=guess')).toEqual({});
    const third = begin(second.saved.at(-1), Date.now());
    expect([third.session.isKnown(old), third.session.isKnown(cookieOf(second.session))]).toEqual([false, true]);
    const later = begin(first.saved.at(-1), Date.now() - hour);
    expect(later.session.isKnown(old)).toBe(false);
  });

  it('of a run more than a week ago lets nobody in', () => {
    const first = begin(undefined, Date.now() - 8 * 24 * hour);
    expect(begin(first.saved.at(-1), Date.now()).session.isKnown(cookieOf(first.session))).toBe(false);
  });

  it('is made anew every half day, and the one before it goes on being exchanged', () => {
    const { keys, saved, session } = begin(undefined, Date.now() - 13 * hour);
    const old = cookieOf(session);
    expect(session.renewal(old)).toEqual({ 'set-cookie': session.setCookie() });
    expect(cookieOf(session)).not.toBe(old);
    expect([saved.length, saved.at(-1)?.key]).toEqual([2, keys.current]);
  });
});

it('a menu leads to a screen of the lot the window shows, or to the first page', () => {
  expect(placeIn('lotfile://window/#/abc/way', 'papers')).toBe('#/abc/papers');
  expect(placeIn('lotfile://window/#/', 'papers')).toBe('#/');
  expect(placeIn('lotfile://window/', 'papers')).toBe('#/');
});

it('the policy allows our own host alone, and names every way a page could reach out', () => {
  const rules = new Map(
    contentPolicy('abc')
      .split('; ')
      .map((rule) => [rule.split(' ')[0], rule.split(' ').slice(1).join(' ')]),
  );
  expect(rules.get('default-src')).toBe("'none'");
  expect(rules.get('script-src')).toBe("'self'");
  expect(rules.get('style-src')).toBe("'self' 'nonce-abc'");
  expect(rules.get('connect-src')).toBe("'self'");
  // These don't fall back to default-src (Content Security Policy Level 3, section 6).
  for (const name of ['base-uri', 'form-action', 'frame-ancestors']) expect(rules.get(name)).toBe("'none'");
});
