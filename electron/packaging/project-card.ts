import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';

const names = z.record(z.string(), z.string()).default({});
const cardSchema = z.object({
  name: z.string(),
  version: z.string(),
  description: z.string().default(''),
  dependencies: names,
  optionalDependencies: names,
});

/** What a package says of itself. */
export function projectCard(folder: string): z.infer<typeof cardSchema> {
  const card: unknown = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return cardSchema.parse(card);
}
