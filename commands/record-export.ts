import { withSet } from '#src/conversation/ask-for.ts'
import { defineCommand } from '#src/desk/command.ts'
import { orderPaper, paperOptions } from '#src/papers/order-paper.ts'
import { UNDATED } from '#src/papers/pieces.ts'

/** Application records as a file: for an inspector, for a customer, or for whoever treats somebody. */
export default defineCommand({
  name: 'record export',
  may: 'crew',
  slow: true,
  options: paperOptions,
  state: paperOptions,
  start: orderPaper,
  next: (given, event, tools) =>
    event.step === UNDATED
      ? orderPaper(given, tools, { noDay: true })
      : orderPaper(paperOptions.parse(withSet(given, event.value)), tools),
})
