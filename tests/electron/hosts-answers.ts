import type { Reply } from '../../core/desk/contract/window-port.ts';

/** The answer, or a failed test with the error's own words. */
export function answered<Answer>(reply: Reply<Answer>): Answer {
  if (reply.ok) return reply.answer;
  throw new Error(`${reply.error.code}: ${reply.error.message} ${reply.error.about ?? ''}`);
}
