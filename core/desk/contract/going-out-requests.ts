import * as z from 'zod';
import { request } from './define.ts';
import type { CalendarAnswer } from './written-answers.ts';

/** Dates that go out, and the lot on its way to another computer or another owner. */
export const goingOutRequests = {
  calendar: request<CalendarAnswer>()({
    help: 'Write your dates as a calendar file (.ics) and say what changed since the last one.',
    in: z.object({}),
  }),
} as const;
