/**
 * What must not travel from one person's keyboard to another's screen: control characters (tab and line feed stay),
 * marks that turn the reading direction, zero-width characters (the joiner stays: emoji and some scripts need it),
 * and halves of a surrogate pair.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: naming them is the purpose
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b\u200c\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g

/** Halves of a surrogate pair: with the u flag whole pairs are one character and do not match. */
const LONE_SURROGATE = /\p{Surrogate}/gu

/** Text that somebody typed, without what cannot be seen. Nothing visible changes. */
export function stripUnseen(typed: string): string {
  return typed.replace(LONE_SURROGATE, '').replace(UNSEEN, '')
}
