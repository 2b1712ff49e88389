import { describe, expect, it } from 'vitest';
import { html, indexPage, relativeAddress } from '../../core/record/index-page.ts';
import type { HouseRecord } from '../../core/record/record-model.ts';

const evil = `<script>alert("x")</script> & 'y'`;

const record: HouseRecord = {
  title: evil,
  day: '14 Apr 2026',
  facts: [['Owner', evil]],
  whole: [{ label: evil, path: `a b/${evil}.pdf` }],
  offices: [
    {
      title: evil,
      papers: [
        { title: evil, number: evil, issued: '1 Aug 2026', state: evil, earlier: true, links: [] },
        {
          title: 'Deed',
          number: '#1?',
          issued: '',
          state: '',
          earlier: false,
          links: [{ label: 'read', path: 'papers/Deed #1?.pdf' }],
        },
      ],
    },
  ],
  tables: [
    { title: 'Empty', head: ['what'], rows: [] },
    { title: 'Notes', head: [evil], rows: [[evil, { label: evil, path: 'photos/ä.jpg' }]] },
  ],
  leftOut: [{ title: evil, why: evil }],
};

describe('the index of the house record', () => {
  it('holds no script and nothing from elsewhere, whatever stands in the papers', () => {
    const page = indexPage(record);
    expect(page).not.toMatch(/<script/i);
    expect(page).not.toMatch(/\b(https?:|\/\/|javascript:|on\w+=)/i);
    expect(page).toContain("default-src 'none'");
    const tags = [...page.matchAll(/<(\/?[a-z0-9]+)/gi)].map(([, tag]) => tag?.replace('/', ''));
    expect(new Set(tags)).toEqual(
      new Set('html head meta title style body h1 p dl dt dd h2 ul li a table thead tr th tbody td'.split(' ')),
    );
  });

  it('links only into its own folder, with odd letters written as an address', () => {
    const page = indexPage(record);
    const targets = [...page.matchAll(/href="([^"]*)"/g)].map(([, target]) => target ?? '');
    expect(targets).toContain('papers/Deed%20%231%3F.pdf');
    expect(targets).toContain('photos/%C3%A4.jpg');
    for (const target of targets) {
      const url = new URL(target, 'file:///record/index.html');
      expect(url.href.startsWith('file:///record/')).toBe(true);
      expect([url.search, url.hash]).toEqual(['', '']);
    }
  });

  it('leaves empty lists out, keeps a day on one line, and says what is only on paper', () => {
    const page = indexPage(record);
    expect(page).not.toContain('Empty');
    expect(page).toContain('1\u00a0Aug\u00a02026');
    expect(page).toContain('on paper only');
  });

  it('turns every sign of the markup into its name', () => {
    expect(html(`<&>"'\u0007`)).toBe('&lt;&amp;&gt;&quot;&#39; ');
    expect(relativeAddress('a b/c&d.pdf')).toBe('a%20b/c%26d.pdf');
  });
});
