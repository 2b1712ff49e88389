import { describe, expect, it } from 'vitest';
import { readArguments } from '../../core/cli/arguments.ts';
import { optionsOf } from '../../core/cli/options.ts';
import { argumentOf, optionsFor, withPositionals } from '../../core/cli/request-argument.ts';
import { paperToKeep, requests } from '../../core/desk/door.ts';

const offer = (path: string): string => `ticket for ${path.split('/').at(-1)}`;

describe('the command line', () => {
  it('reads its options off the contract, so that no list can drift', () => {
    const words = optionsOf(paperToKeep).map(({ word, takes }) => `${word}:${takes}`);
    expect(words).toContain('file:file');
    expect(words).toContain('good-through:day');
    expect(words).toContain('fact:pair');
    expect(words).toContain('mark:words');
    expect(words).toContain('physical-only:flag');
  });

  it('makes one paper of each file, or one of all with --together', () => {
    const line = [
      'a.pdf',
      'b.jpg',
      '--kind',
      'deed',
      '--fact',
      'owner=Hạnh Lindqvist',
      '--mark',
      'signed',
      '--mark',
      'dated',
    ];
    const each = readArguments(line, optionsFor('keep'));
    const rest = { kind: 'deed', facts: { owner: 'Hạnh Lindqvist' }, marks: ['signed', 'dated'], links: [] };
    expect(argumentOf('keep', withPositionals('keep', each), offer)).toEqual({
      papers: [
        { ...rest, files: ['ticket for a.pdf'] },
        { ...rest, files: ['ticket for b.jpg'] },
      ],
    });
    const joined = readArguments([...line, '--together'], optionsFor('keep'));
    expect(argumentOf('keep', withPositionals('keep', joined), offer)).toEqual({
      papers: [{ ...rest, files: ['ticket for a.pdf', 'ticket for b.jpg'] }],
    });
  });

  it('turns --replaces and its kin into links', () => {
    const read = readArguments(['c.pdf', '--replaces', 'plans', '--made-from', 'ed-2'], optionsFor('keep'));
    expect(argumentOf('keep', withPositionals('keep', read), offer)).toMatchObject({
      papers: [
        {
          links: [
            { word: 'replaces', to: 'plans' },
            { word: 'made from', to: 'ed-2' },
          ],
        },
      ],
    });
  });

  it('says what is wrong and what to write instead', () => {
    const keep = optionsFor('keep');
    expect(() => readArguments(['a.pdf', '--fact', 'bedrooms'], keep)).toThrow(/has no "="/);
    expect(() => readArguments(['--colour', 'red'], keep)).toThrow(/colour/);
    expect(() => readArguments(['--limit', 'many'], optionsOf(requests.find.in))).toThrow(/takes a number/);
    const tooMany = readArguments(['2026-01-01', 'extra'], optionsFor('target'));
    expect(() => withPositionals('target', tooMany)).toThrow(/one word too many/);
  });
});
