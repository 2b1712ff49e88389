import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SampleName } from '../../core/desk/door.ts';
import { final, firstMonth, framing } from './first-timer.ts';
import { scratchFolder, type ToldState, toldState } from './told-states.ts';

const program = join(import.meta.dirname, '..', '..', 'core', 'cli', 'lotfile.ts');
const scratch = scratchFolder();
const told = new Map<SampleName, ToldState>();

beforeAll(async () => {
  for (const name of ['first-month', 'framing', 'final'] as const)
    told.set(name, await toldState(name, scratch.folder));
}, 0);

afterAll(() => scratch[Symbol.dispose]());

/** What the terminal answers, its lines run together: where a sentence is wrapped makes no difference. */
function answer(name: SampleName, ...words: readonly string[]): string {
  const { path, day } = told.get(name) ?? { path: '', day: '' };
  const asked = [program, ...words, '--lot', path, '--on', day];
  const { stdout, stderr, status } = spawnSync(process.execPath, asked, { encoding: 'utf8' });
  // 3 is "done, but something would be refused".
  expect([0, 3], stderr).toContain(status);
  return stdout.replace(/\s+/g, ' ');
}

/** All of them, in this order. */
function inOrder(text: string, parts: readonly string[]): void {
  const places = parts.map((part) => text.indexOf(part));
  expect(places, parts.join(', ')).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
}

describe('in the terminal, while framing goes on, a first-timer asks', () => {
  it('what next, and what do I carry?', () => {
    const slip = answer('framing', 'today');
    inOrder(slip, [framing.lapsed, ...framing.next.map((title, n) => `${n + 1}. ${title}`)]);
    const septic = slip.slice(slip.indexOf(`2. ${framing.next[1]}`), slip.indexOf(' 3. '));
    inOrder(septic, framing.carry);
    expect(septic).toContain(framing.copies);
    expect(septic).toContain(`Bring: ${framing.bring}`);
  });

  it('what does it cost?', () => {
    const costs = answer('framing', 'costs');
    const { estimate, paid, toPay, left } = framing.costs;
    expect(costs).toMatch(new RegExp(`In all \\$${estimate} \\$[\\d,]+ \\$${paid} \\$${toPay}`));
    expect(costs).toContain(`($${left} left)`);
    expect(costs).toContain(`$${framing.draw} due`);
  });

  it('what lapses within 60 days, and when must I ask?', () => {
    const lapses = answer('framing', 'lapses', '60');
    inOrder(lapses, ['Septic permit', 'lapsed after', ...framing.lapses]);
    for (const title of framing.lapses)
      expect(lapses).toContain(`${title} WP-25-0102 good through Wed ${framing.lapsesDay}`);
    expect(lapses.match(/good through \w{3} /g)).toHaveLength(framing.lapses.length);
  });

  it('what may I not cover up?', () => {
    const way = answer('framing', 'way');
    expect(way).toContain(`Before you cover the walls: ${framing.walls.join(', ')}`);
    expect(way).toContain(`Before you cover the septic system: ${framing.septicHold}`);
  });

  it('what has the insurer not seen, and whom must I tell that the plans changed?', () => {
    const offices = answer('framing', 'with-offices');
    const tell = offices.slice(0, offices.indexOf('Energy tester') + 60);
    expect(tell.startsWith(framing.pending)).toBe(true);
    expect(offices).not.toContain('they hold an old copy: House plans');
    expect(offices).not.toContain('revision D counts');
    for (const holder of framing.holders) expect(tell).toContain(`${holder} holds revision C`);
    for (const maker of framing.makers) expect(tell).toContain(`${maker} made`);
    const agent = offices.slice(
      offices.indexOf('Insurance agent 17 Apr'),
      offices.indexOf('Brindlemoor Permit Desk, 555'),
    );
    for (const paper of framing.insurer) expect(agent).toContain(`not seen by them yet: ${paper}`);
  });

  it('who is on site without cover?', () => {
    expect(answer('framing', 'trades')).toContain(`On site without cover on 16 Sep 2026: ${framing.uncovered}`);
  });

  it('what would the inspector turn me away for today?', () => {
    const errand = answer('framing', 'errand', 'framing-inspect');
    inOrder(errand, framing.corrections);
    expect(errand).toContain(`Correction 3 of 10 Sep 2026 is not answered: "${framing.corrections[2]}"`);
    expect(errand).toContain('Fee: $45, for coming again');
    expect(errand).toContain(framing.notApproved);
    // The next inspection is no way round it.
    expect(answer('framing', 'errand', 'insulation-inspect')).toMatch(/^Insulation inspection: can't go yet/);
  });
});

describe('in the terminal, in the first month and in the week of the final, a first-timer asks', () => {
  it('what next, while the office has the soil evaluation', () => {
    const slip = answer('first-month', 'today');
    inOrder(
      slip,
      firstMonth.next.map((title, n) => `${n + 1}. ${title}`),
    );
    expect(slip).toContain(`Brindlemoor Environmental Health has "${firstMonth.waiting}" since 7 Apr 2026 (7 days).`);
    expect(answer('first-month', 'costs')).toMatch(
      new RegExp(`In all \\$${firstMonth.costs.estimate} \\$[\\d,]+ \\$${firstMonth.costs.paid} `),
    );
  });

  it('what lapses, and when to ask', () => {
    const early = answer('first-month', 'lapses', '60');
    expect(early).toContain(`${firstMonth.lapses} 2604-060218 good through Fri ${firstMonth.lapsesDay}`);
    expect(early).toContain(firstMonth.pits);
    const late = answer('final', 'lapses', '60');
    inOrder(late, final.lapses);
    inOrder(late, final.lapsesDays);
    expect(late).toContain(`ask for more time by Thu ${final.askBy}`);
  });

  it('what they would turn me away for, what the insurer has not seen, and whether the bank pays', () => {
    expect(answer('final', 'errand', 'occupancy-walk')).toContain(final.missing);
    const offices = answer('final', 'with-offices');
    expect(offices).toContain(`left with them: ${final.waiting}, 23 Feb 2027 (3 days)`);
    // Fixed bug: what lies with them stood there as from its own day on, as if it had to be begun.
    for (const words of [answer('final', 'errand', 'driveway-finish'), answer('final', 'inspections')]) {
      expect(words).toContain(`${final.lies}; their answer: ${final.answer}`);
    }
    for (const paper of final.insurer) expect(offices).toContain(`not seen by them yet: ${paper}`);
    const check = answer('final', 'draw-check', '7');
    expect(check).toContain(`Due now $${final.draw}`);
    expect(check.match(/REFUSED The waiver from (\w+ \w+), invoice of/g)).toEqual([
      `REFUSED The waiver from ${final.noFinalWaiver}, invoice of`,
      `REFUSED The waiver from ${final.noFinalWaiver}, invoice of`,
    ]);
  });
});
