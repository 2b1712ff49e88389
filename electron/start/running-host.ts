import { randomBytes } from 'node:crypto';
import { makeToken, proofOfLife, readKept } from '../loopback/session.ts';

/**
 * A host of this person that is running already, as an address to open it with. It has to prove that it knows the
 * secret: some other program may have taken the port.
 */
export async function runningHost(config: string): Promise<string | undefined> {
  const { secret, port } = readKept(config);
  if (port === 0) return undefined;
  const challenge = randomBytes(16).toString('hex');
  const own = `http://127.0.0.1:${port}`;
  try {
    const answer = await fetch(`${own}/alive?challenge=${challenge}`, { signal: AbortSignal.timeout(1500) });
    if ((await answer.text()) !== proofOfLife(secret, port, challenge)) return undefined;
    return `${own}/?token=${makeToken(secret, port)}`;
  } catch {
    return undefined;
  }
}
