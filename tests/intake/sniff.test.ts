import { describe, expect, it } from 'vitest';
import { sniff } from '../../core/intake/sniff.ts';

const bytes = (text: string) => Buffer.from(text, 'latin1');

describe('telling a file by its bytes', () => {
  it.each([
    ['', 'empty'],
    ['%PDF-1.4\n', 'pdf'],
    ['Received: from a\r\n\r\n%PDF-1.4\n', 'pdf'],
    ['\u00ff\u00d8\u00ff\u00e0', 'jpeg'],
    ['\u0089PNG\r\n\u001a\n', 'png'],
    ['GIF89a', 'gif'],
    ['RIFF\0\0\0\0WEBPVP8 ', 'webp'],
    ['II*\0', 'tiff'],
    ['MM\0*', 'tiff'],
    ['\0\0\0\u0018ftypheic', 'heic'],
    ['BM\u0000\u0001\u0002\u0003', 'bmp'],
    ['PK\u0003\u0004xxxxpermit.pdf', 'zip'],
    ['PK\u0003\u0004xxxx[Content_Types].xml', 'office'],
    ['\u00d0\u00cf\u0011\u00e0\u00a1\u00b1', 'office'],
    ['{\\rtf1', 'rtf'],
    ['\n  <!DOCTYPE html><html>', 'web page'],
    ['\u00ef\u00bb\u00bf<html>', 'web page'],
    ['<?xml version="1.0"?><html xmlns="a">', 'web page'],
    ['Return-Path: <a@example.org>', 'e-mail'],
    ['Lot 3, Ridge Road', 'text'],
    ['\u0000\u0001\u0002\u0003', 'unknown'],
  ])('takes %j for %s', (head, sort) => {
    expect(sniff(bytes(head))).toBe(sort);
  });

  it('doesn\u2019t take a header that stands too far in for a PDF', () => {
    expect(sniff(bytes(`${'x'.repeat(1500)}%PDF-1.4`))).toBe('text');
  });
});
