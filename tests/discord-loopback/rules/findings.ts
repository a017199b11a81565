/** Where in a body something stands, e.g. `['embeds', 0, 'title']`. */
export type Path = readonly (string | number)[]

export interface Finding {
  /** Dotted path, '' for the body as a whole. */
  path: string
  code: string
  message: string
}

interface ErrorLeaf {
  _errors: { code: string; message: string }[]
}
export type ErrorTree = { [key: string]: ErrorTree | ErrorLeaf['_errors'] }

/** Collects all breaches and warnings of one body, not only the first. */
export class Findings {
  readonly breaches: Finding[] = []
  readonly warnings: Finding[] = []

  breach(path: Path, code: string, message: string): void {
    this.breaches.push({ path: path.join('.'), code, message })
  }

  warn(path: Path, code: string, message: string): void {
    this.warnings.push({ path: path.join('.'), code, message })
  }

  get clean(): boolean {
    return this.breaches.length === 0
  }

  /** The breaches in the platform's nested shape: `{ embeds: { 0: { title: { _errors: [...] } } } }`. */
  tree(): ErrorTree {
    const root: ErrorTree = {}
    for (const { path, code, message } of this.breaches) {
      let node = root
      for (const key of path === '' ? [] : path.split('.')) {
        node[key] ??= {}
        node = node[key] as ErrorTree
      }
      node._errors ??= []
      ;(node._errors as ErrorLeaf['_errors']).push({ code, message })
    }
    return root
  }
}
