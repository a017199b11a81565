/**
 * A process that writes to a store as fast as it can, for tests with several: `writer.ts PATH NAME COUNT`.
 * Prints what became of its requests as one JSON object.
 */
import { openDatabase } from '#src/store/open.ts'
import { run, speaker } from './asks.ts'
import { openTestDesk } from './test-desk.ts'

const [path = '', name = '', count = '0'] = process.argv.slice(2)
const database = await openDatabase({ engine: 'sqlite', path }, 'practice')
const desk = openTestDesk(database)
const by = speaker({ personKey: name, personName: name })

const answers = await Promise.allSettled(
  Array.from({ length: Number(count) }, (_, n) => desk.answer(run('note', { text: `${name} ${n}` }, { by }))),
)
const answered = answers.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))
const failed = answers.flatMap((one) => (one.status === 'rejected' ? [String(one.reason)] : []))
await database.close()
process.stdout.write(
  JSON.stringify({
    numbers: answered.map(({ number }) => number),
    failed: [...failed, ...desk.errors.map(({ error }) => String(error))],
  }),
)
