import { readdirSync } from 'node:fs'
import path from 'node:path'
import { projectRoot, readData } from '../../src/project.ts'
import type { RuleTables } from '../../src/record/rule-set.ts'
import { tablesOf } from '../../src/record/rule-set.ts'
import { readStateRules } from '../../src/record/state-rules.ts'

/**
 * The rule tables of all states, read from data/states; a further state is a further file.
 * @throws Error that names every file and field that is wrong
 */
export function loadStateRules(): RuleTables {
  const names = readdirSync(path.join(projectRoot(), 'data', 'states'))
    .filter((name) => name.endsWith('.json'))
    .sort()
  const read = names.map((name) => readStateRules(`data/states/${name}`, readData(`states/${name}`)))
  const problems = read.flatMap((one) => (one.ok ? [] : one.error))
  if (problems.length > 0) throw new Error(`Cannot use the rule tables:\n${problems.join('\n')}`)
  return tablesOf(read.flatMap((one) => (one.ok ? [one.value] : [])))
}
