/**
 * Rows of a comma-separated text as records by heading.
 * Understands quoted fields with doubled quotes; a field may hold commas and line breaks inside quotes.
 * Throws when a row has another number of fields than the heading.
 */
export function parseCsv(text: string, file: string): Record<string, string>[] {
  const [heading, ...rows] = splitRows(text)
  if (heading === undefined) throw new Error(`Cannot read ${file}: it is empty`)
  return rows.map((fields, index) => {
    if (fields.length !== heading.length) {
      throw new Error(
        `Cannot read ${file}: row ${index + 2} has ${fields.length} fields, the heading has ${heading.length}`,
      )
    }
    return Object.fromEntries(heading.map((name, column) => [name, fields[column] ?? '']))
  })
}

function splitRows(text: string): string[][] {
  const rows: string[][] = []
  let row: string[] = []
  let field = ''
  let quoted = false
  for (let at = 0; at < text.length; at++) {
    const char = text[at]
    if (quoted) {
      if (char !== '"') field += char
      else if (text[at + 1] === '"') {
        field += '"'
        at++
      } else quoted = false
    } else if (char === '"') quoted = true
    else if (char === ',') {
      row.push(field)
      field = ''
    } else if (char === '\n') {
      rows.push([...row, field])
      row = []
      field = ''
    } else if (char !== '\r') field += char
  }
  if (field !== '' || row.length > 0) rows.push([...row, field])
  return rows.filter((fields) => fields.some((one) => one !== ''))
}
