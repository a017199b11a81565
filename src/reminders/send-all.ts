import { planReminders } from '#src/visits/plan-reminders.ts'
import { type Sending, sendDue } from './send-due.ts'

/** One pass of what leaves unasked: messages whose morning has come are planned, then everything due is sent. */
export async function sendAll(sending: Sending): Promise<number> {
  await planReminders({ ...sending, nowMs: sending.nowMs() })
  return sendDue(sending)
}
