import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { openSmallLot } from './small-lot.ts';

describe('a lot that this desk already has open', () => {
  it('is shared: opened again it has the same handle, by whatever way one comes to its folder', async () => {
    await using small = await openSmallLot();
    const { desk, folder, root, lot } = small;
    const link = join(root, 'a shorter way');
    symlinkSync(folder, link, 'junction');
    for (const path of [folder, `${folder}/`, link]) {
      const again = await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
      expect(again).toMatchObject({ lot, title: 'Heron Lane' });
    }
    await desk.ask('answer', { question: 'sewage', answer: 'septic' }, { lot });
  });

  it('has a new handle once it was closed, and stays refused to another desk while it is open', async () => {
    await using small = await openSmallLot();
    const { desk, folder, lot } = small;
    await using other = openDesk({ program: 'another desk' });
    await expect(other.ask('open-lot', { folder: other.tickets.offer(folder) })).rejects.toThrow(/open in test/);
    await desk.ask('close-lot', {}, { lot });
    const again = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
    expect(again.lot).not.toBe(lot);
    await expect(desk.ask('read-lot', {}, { lot })).rejects.toThrow('No lot is open here.');
  });
});

it('a lot whose folder was taken away keeps no other open when the desk is closed, and is told', async () => {
  await using small = await openSmallLot();
  const gone = join(small.root, 'on a stick');
  const desk = openDesk({ program: 'test' });
  await desk.ask('new-lot', { folder: desk.tickets.offer(gone), title: 'On a stick' });
  const stays = desk.tickets.offer(join(small.root, 'stays'));
  await desk.ask('new-lot', { folder: stays, title: 'Stays' });
  rmSync(gone, { recursive: true });
  await expect(desk.close()).rejects.toBeInstanceOf(LotfileError);
  const { title } = await small.desk.ask('open-lot', { folder: small.desk.tickets.offer(join(small.root, 'stays')) });
  expect(title).toBe('Stays');
});
