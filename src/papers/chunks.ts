/** Each write to the disk has its price; what is larger than this gains nothing, and takes memory. */
const CHUNK = 64 * 1024

/** Text as bytes, in pieces of about {@link CHUNK} however small or large those are that it comes in. */
export async function* inChunks(pieces: AsyncIterable<string>): AsyncGenerator<Buffer> {
  let text = ''
  for await (const piece of pieces) {
    text += piece
    if (text.length < CHUNK) continue
    yield Buffer.from(text)
    text = ''
  }
  if (text !== '') yield Buffer.from(text)
}
