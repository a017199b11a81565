/** What this makes, made when it is first asked for; a failure is met by whoever asks, and tried again. */
export function once<Made>(make: () => Made): () => Made {
  let made: { readonly value: Made } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}
