/** Marks of our own that a line of a message may begin with. */
const OWN_START = /^(?:# |## |### |-# |> )/
const OWN_BOLD = /^\*\*(.*)\*\*$/

/**
 * What in a message would format, call or link although nobody here wrote it so: an oracle apart from the escaping.
 * It takes away our own marks and every escaped sign, as the platform's client does, and looks at what is left.
 */
export function unescaped(message: string): string[] {
  return message.split('\n').flatMap((whole, at) => {
    const bold = at === 0 ? OWN_BOLD.exec(whole)?.[1] : undefined
    const line = bold ?? whole.replace(OWN_START, '')
    const plain = line.replace(/\\[^0-9A-Za-z\s]/g, '\u0001')
    const found = [
      ...(/[*_~`|[<]/.exec(plain) ?? []),
      ...(/^\s*(?:#|-|\+|>|\d+[.)](?=\s|$))/.exec(plain) ?? []),
      ...(/@(?:everyone|here)/i.exec(plain) ?? []),
      ...(/\w:\/\//.exec(plain) ?? []),
      ...(/:[\w+-]+:/.exec(plain) ?? []),
      ...(/\\$/.exec(plain) ?? []),
    ]
    return found.map((mark) => `${mark} in ${whole}`)
  })
}
