import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import ts from 'typescript'
import { projectRoot } from '#src/project.ts'

/** One sentence that the code says by its id. */
export interface Saying {
  readonly id: string
  readonly place: string
  /** Parameters given beside it; null when they are not written out there. */
  readonly given: readonly string[] | null
}

export interface Sayings {
  readonly said: readonly Saying[]
  /** Every text of the code that is shaped like an id: `mix.fill-to`. */
  readonly mentioned: ReadonlyMap<string, string>
  /** Beginnings of ids that the code builds: `label.` of `label.${kind}`. */
  readonly built: ReadonlySet<string>
}

const ID = /^[a-z][a-z0-9-]*(\.[a-z0-9-]+)+$/
const BEGINNING = /^[a-z][a-z0-9-]*\.([a-z0-9-]+[.-])*$/

/** Reads all sentences that the sources below these folders say. */
export function readSayings(folders: readonly string[]): Sayings {
  const found = { said: [] as Saying[], mentioned: new Map<string, string>(), built: new Set<string>() }
  for (const folder of folders) {
    for (const file of sourcesIn(path.join(projectRoot(), folder))) readFile(file, found)
  }
  return found
}

function sourcesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => path.join(folder, name))
    .sort()
}

interface Found {
  readonly said: Saying[]
  readonly mentioned: Map<string, string>
  readonly built: Set<string>
}

function readFile(file: string, found: Found): void {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true)
  const placeOf = (node: ts.Node) => {
    const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1
    return `${path.relative(projectRoot(), file)}:${line}`
  }
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return
    if (ts.isStringLiteralLike(node) && ID.test(node.text)) found.mentioned.set(node.text, placeOf(node))
    if (ts.isTemplateExpression(node) && BEGINNING.test(node.head.text)) found.built.add(node.head.text)
    const saying = readSaying(node)
    if (saying !== null) found.said.push({ ...saying, place: placeOf(node) })
    ts.forEachChild(node, visit)
  }
  visit(source)
}

/** `say('id', { … })`, or the plain data `{ say: 'id', with: { … } }`. */
function readSaying(node: ts.Node): Omit<Saying, 'place'> | null {
  if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === 'say') {
    const [id, parameters] = node.arguments
    if (id === undefined || !ts.isStringLiteralLike(id)) return null
    return { id: id.text, given: parameters === undefined ? [] : namesOf(parameters) }
  }
  if (!ts.isObjectLiteralExpression(node)) return null
  const id = initializerOf(node, 'say')
  if (id === undefined || !ts.isStringLiteralLike(id)) return null
  const parameters = initializerOf(node, 'with')
  return { id: id.text, given: parameters === undefined ? [] : namesOf(parameters) }
}

function initializerOf(node: ts.ObjectLiteralExpression, name: string): ts.Expression | undefined {
  for (const property of node.properties) {
    if (ts.isPropertyAssignment(property) && property.name.getText() === name) return property.initializer
  }
  return undefined
}

/** Names of an object written out; null when part of it comes from elsewhere. */
function namesOf(node: ts.Expression): string[] | null {
  if (!ts.isObjectLiteralExpression(node)) return null
  const names = node.properties.map((property) => {
    const name = property.name
    return name !== undefined && (ts.isIdentifier(name) || ts.isStringLiteral(name)) ? name.text : null
  })
  return names.every((name) => name !== null) ? names : null
}
