export function bundle(parts: {
  readonly root: string
  readonly entries: Readonly<Record<string, string>>
  readonly folder: string
}): Promise<void>

export function bundleForNow(root: string, entry: string): Promise<{ readonly file: string; remove(): void }>
