import type { Clock } from '../clock.ts'

/** How long a nonce is remembered, ms: "the past few minutes" in the docs (resources/message); five here. */
export const NONCE_MEMORY_MS = 5 * 60 * 1000

/** Which message an enforced nonce has made already, per channel. */
export class NonceBook {
  readonly #made = new Map<string, { messageId: string; atMs: number }>()
  readonly #clock: Clock

  constructor(clock: Clock) {
    this.#clock = clock
  }

  find(channelId: string, nonce: unknown): string | undefined {
    const known = this.#made.get(`${channelId} ${String(nonce)}`)
    return known !== undefined && this.#clock.nowMs() - known.atMs <= NONCE_MEMORY_MS
      ? known.messageId
      : undefined
  }

  remember(channelId: string, nonce: unknown, messageId: string): void {
    this.#made.set(`${channelId} ${String(nonce)}`, { messageId, atMs: this.#clock.nowMs() })
  }
}
