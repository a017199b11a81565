import type { Presented } from '#src/messengers/present.ts'

/** A reply as plain terminal text: outcome and title first, safety always visible, the working left out. */
export function paint(
  one: Presented,
  options: { readonly width: number; readonly working?: boolean },
): string {
  const wrap = (text: string, indent = '  ') => wrapText(text, options.width, indent)
  const parts = [
    `${one.mark} ${one.word}: ${one.title}`,
    ...one.lines.map((line) => wrap(line)),
    ...(options.working ? one.working.map((line) => wrap(`· ${line}`)) : []),
    ...one.files.map((file) => wrap(`[${file.name}] ${file.alt}`)),
    ...one.safety.map(({ text }) => wrap(`! ${text}`)),
    ...(one.form === null ? [] : [paintForm(one.form, wrap)]),
    ...one.choices.map(({ label }, at) => wrap(`> ${at + 1}  ${label}`)),
    wrap([one.numberLine, one.standing, one.demo].filter((text) => text !== null).join(' · ')),
  ]
  return `${parts.join('\n')}\n`
}

function paintForm(form: NonNullable<Presented['form']>, wrap: (text: string) => string): string {
  const lines = form.fields.map(({ name, label, hint, required, value, options }) => {
    const known = value === null ? '' : ` [${value}]`
    const list = options.length === 0 ? '' : ` (${options.map((option) => option.value).join(' | ')})`
    return wrap(
      `= ${name}: ${label}${required ? ' *' : ''}${hint === null ? '' : ` - ${hint}`}${list}${known}`,
    )
  })
  return [wrap(form.title), ...lines].join('\n')
}

/** Breaks at spaces; a longer word stays whole. */
export function wrapText(text: string, width: number, indent: string): string {
  return text
    .split('\n')
    .flatMap((line) => {
      const lines = ['']
      for (const word of line.split(' ')) {
        const last = lines.at(-1) ?? ''
        if (last !== '' && last.length + word.length + 1 > width - indent.length) lines.push(word)
        else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`
      }
      return lines.map((piece) => indent + piece)
    })
    .join('\n')
}
