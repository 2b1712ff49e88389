import type { PacketPlan } from '../../../packet/plan-model.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { officeCard } from '../asked.ts';
import { packetNamed, partsOf } from '../packet-files.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

const places: Readonly<Record<PacketPlan['tabs'][number]['place'], string>> = {
  inside: '',
  beside: 'a file of its own',
  'by hand': 'on paper, by hand',
  missing: 'not enclosed',
  'to follow': 'to follow',
};

/** What is enclosed, tab by tab; papers that are missing are no part of what is handed over. */
function enclosed(plan: PacketPlan): PaperBlock {
  const tabs = plan.tabs.filter(({ place, seeTab }) => place !== 'missing' && seeTab === undefined);
  return {
    block: 'table',
    columns: [
      { head: 'tab', share: 1.2, face: 'mono' },
      { head: 'paper', share: 8, face: 'bold' },
      { head: 'number', share: 4, face: 'mono' },
      { head: 'dated', share: 3 },
      { head: 'copies', share: 2, align: 'right' },
      { head: '', share: 4 },
    ],
    rows: tabs.map((tab) => [String(tab.tab), tab.title, tab.number, tab.dated, String(tab.copies), places[tab.place]]),
  };
}

/** The letter that goes with a packet, with a line for whoever takes it in. */
export function transmittal(frame: PaperFrame): PaperDraft {
  const { asked, at, wanted } = frame;
  if (wanted.packet === undefined) {
    throw new LotfileError('wrong use', 'Which packet the letter goes with was not said.', {
      next: 'Name it by its id or title; see them: packets.',
    });
  }
  const packet = packetNamed(at, wanted.packet);
  const plan = at.lot.packetPlan(packet.id);
  const parts = partsOf(packet, at).filter(({ sort }) => sort !== 'errand sheet' && sort !== 'print shop');
  const words = paperWording.transmittal;
  const office = plan.office === undefined ? undefined : officeCard(asked.practice, plan.office);
  const recipient = wanted.recipient ?? packet.recipient;
  const files = parts.map(({ name, pages, sha256 }) => [
    name,
    pages === 0 ? '' : String(pages),
    `${sha256.slice(0, 16)} …`,
  ]);
  return {
    name: `letter ${packet.code}`,
    own: false,
    kicker: words.kicker,
    title: packet.title,
    recipient,
    draft: plan.draft,
    blocks: [
      { block: 'letter', lines: [[recipient, office?.street].filter((part) => part !== undefined).join('\n')] },
      {
        block: 'letter',
        lines: [dayInWords(asked.day), ...(wanted.words === undefined ? [] : [wanted.words]), words.dear],
      },
      enclosed(plan),
      ...(files.length === 0
        ? []
        : [
            { block: 'heading', text: words.files } as const,
            { block: 'space' } as const,
            {
              block: 'table',
              columns: [
                { head: 'file', share: 10 },
                { head: 'pages', share: 2, align: 'right' },
                { head: 'SHA-256', share: 5, face: 'mono' },
              ],
              rows: files,
            } as const,
            { block: 'text', text: words.counted, quiet: true } as const,
          ]),
      { block: 'sign', fields: [words.received, paperWording.extension.sign] },
    ],
    notes: plan.draft ? ['The packet is a DRAFT, so the letter is one too.'] : [],
  };
}
