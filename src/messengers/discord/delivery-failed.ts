import type { Trouble } from './platform-error.ts'

/** It could not be sent. `again` is true if it may work another time. */
export class DeliveryFailed extends Error {
  override readonly name = 'DeliveryFailed'
  constructor(
    readonly trouble: Trouble,
    readonly again: boolean,
    cause: unknown,
  ) {
    super(`Cannot deliver a message: ${trouble}`, { cause })
  }
}
