/** What this brings, brought when it is first asked for; a failure is met by whoever asks, and tried again. */
export function later<Brought>(bring: () => Promise<Brought>): () => Promise<Brought> {
  let coming: Promise<Brought> | null = null
  return () => {
    coming ??= bring().catch((error: unknown) => {
      coming = null
      throw error
    })
    return coming
  }
}
