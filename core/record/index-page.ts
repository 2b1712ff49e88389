import type { HouseRecord, RecordLink, RecordOffice, RecordPaper, RecordTable } from './record-model.ts';

/** Text as it may stand in HTML, in an attribute too. */
export function html(text: string): string {
  const signs: Readonly<Record<string, string>> = {
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
  };
  return text.replace(/[^\P{Cc}\n\t]/gu, ' ').replace(/[&<>"']/g, (sign) => signs[sign] ?? sign);
}

/** A path within the folder as a relative address; never one that leaves it. */
export function relativeAddress(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}

function link({ label, path }: RecordLink): string {
  return `<a href="${relativeAddress(path)}">${html(label)}</a>`;
}

/** A day stays on one line: "1 Aug 2026". */
function oneLine(text: string): string {
  return /^\d{1,2} \w{3} \d{4}$/.test(text) ? text.replaceAll(' ', '\u00a0') : text;
}

function cell(value: string | RecordLink): string {
  return `<td>${typeof value === 'string' ? html(oneLine(value)) : link(value)}</td>`;
}

function paperRow(paper: RecordPaper): string {
  const files = paper.links.length === 0 ? 'on paper only' : paper.links.map(link).join(' · ');
  const shade = paper.earlier ? ' class="earlier"' : '';
  const cells = [paper.title, paper.number, paper.issued, paper.state].map(cell).join('');
  return `<tr${shade}>${cells}<td>${files}</td></tr>`;
}

function officePart({ title, papers }: RecordOffice): string {
  const head = ['paper', 'number', 'dated', 'state', 'files'].map((word) => `<th scope="col">${word}</th>`).join('');
  const rows = papers.map(paperRow).join('\n');
  return `<h2>${html(title)}</h2>\n<table><thead><tr>${head}</tr></thead>\n<tbody>\n${rows}\n</tbody></table>`;
}

function tablePart({ title, head, rows }: RecordTable): string {
  if (rows.length === 0) return '';
  const heads = head.map((word) => `<th scope="col">${html(word)}</th>`).join('');
  const body = rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n');
  return `<h2>${html(title)}</h2>\n<table><thead><tr>${heads}</tr></thead>\n<tbody>\n${body}\n</tbody></table>`;
}

function leftOutPart({ leftOut }: HouseRecord): string {
  if (leftOut.length === 0) return '';
  const items = leftOut.map(({ title, why }) => `<li>${html(title)}: ${html(why)}</li>`).join('\n');
  return `<h2>Not in this folder</h2>\n<ul>\n${items}\n</ul>`;
}

const look = `
:root { color-scheme: light; }
body { font: 1rem/1.5 "Source Sans 3", "Segoe UI", system-ui, sans-serif; color: #22282b; background: #fbf9f2; max-width: 62rem; margin: 2rem auto; padding: 0 1rem; }
h1, h2 { font-family: Bitter, Rockwell, Georgia, serif; line-height: 1.25; }
h1 { font-size: 1.75rem; margin-bottom: .25rem; }
h2 { font-size: 1.125rem; margin: 2rem 0 .5rem; border-bottom: 1.5px solid; padding-bottom: .25rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25rem .75rem .25rem .25rem; border-bottom: 1px solid #5c6468; overflow-wrap: break-word; }
th { font-size: .875rem; background: #efe6d0; }
td:first-child { font-weight: 600; }
tr.earlier td { color: #5c6468; font-weight: 400; }
a { color: #5a2d82; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .125rem 1rem; }
dt { color: #5c6468; }
dd { margin: 0; }
.lead { color: #5c6468; margin-top: 0; }
@media print { body { background: none; margin: 0; max-width: none; font-size: 10pt; } a { color: inherit; } h2 { break-after: avoid; } tr { break-inside: avoid; } }
`;

/**
 * The index of the house record: one page of plain HTML, no script, nothing from elsewhere, links only into its own
 * folder; it opens in any browser and prints.
 */
export function indexPage(record: HouseRecord): string {
  const facts = record.facts.map(([label, value]) => `<dt>${html(label)}</dt><dd>${html(value)}</dd>`).join('\n');
  const whole = record.whole.map((one) => `<li>${link(one)}</li>`).join('\n');
  return [
    '<!doctype html>',
    '<html lang="en-US">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>House record: ${html(record.title)}</title>`,
    `<style>${look}</style>`,
    '</head>',
    '<body>',
    `<h1>House record: ${html(record.title)}</h1>`,
    `<p class="lead">As the owner kept it, on ${html(record.day)}. Not an official record: the offices’ own papers count.</p>`,
    `<dl>\n${facts}\n</dl>`,
    `<h2>All in one</h2>\n<ul>\n${whole}\n</ul>`,
    ...record.offices.map(officePart),
    ...record.tables.map(tablePart).filter((part) => part !== ''),
    leftOutPart(record),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
