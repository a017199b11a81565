export function bundle(parts: {
  readonly root: string
  readonly entries: Readonly<Record<string, string>>
  readonly within: string
}): Promise<{ readonly folder: string; readonly inputs: readonly string[] }>

export function bundleForNow(root: string, entry: string): Promise<{ readonly file: string; remove(): void }>
