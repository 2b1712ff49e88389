import * as z from 'zod';

/** An advisory that was looked at and let stand, with the reason; written down in allowed-advisories.json. */
export const allowedSchema = z.array(
  z.object({
    /** As in its address: GHSA-xxxx-xxxx-xxxx. */
    id: z.string().regex(/^GHSA(-[0-9a-z]{4}){3}$/),
    package: z.string().min(1),
    why: z.string().min(20),
  }),
);
export type Allowed = z.infer<typeof allowedSchema>[number];

const via = z.object({ title: z.string(), url: z.string(), severity: z.string() });
const auditSchema = z.object({
  vulnerabilities: z.record(z.string(), z.object({ name: z.string(), via: z.array(z.union([z.string(), via])) })),
});

export interface Judged {
  /** Advisories nobody has looked at yet. */
  readonly open: readonly string[];
  /** Ids that stand in the list although nothing reports them any more. */
  readonly needless: readonly string[];
}

/**
 * What `npm audit --json` reports, held against the list of what was let stand.
 * @throws where the report is none, as when the registry could not be asked: silence is not the same as clean.
 */
export function judgeAudit(report: unknown, allowed: readonly Allowed[]): Judged {
  const read = auditSchema.safeParse(report);
  if (!read.success) throw new Error('The registry gave no report: nothing is known of advisories.');
  const found = Object.values(read.data.vulnerabilities).flatMap(({ name, via: causes }) =>
    causes.flatMap((cause) =>
      typeof cause === 'string' ? [] : [{ name, ...cause, id: cause.url.split('/').at(-1) ?? '' }],
    ),
  );
  const lets = (id: string, name: string): boolean => allowed.some((one) => one.id === id && one.package === name);
  return {
    open: found
      .filter(({ id, name }) => !lets(id, name))
      .map(({ id, name, title, severity }) => `${name}: ${title} (${severity}, ${id})`),
    needless: allowed.filter(({ id }) => !found.some((one) => one.id === id)).map(({ id }) => id),
  };
}
