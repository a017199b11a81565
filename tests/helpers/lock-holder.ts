/** A process that holds the only write lock of a SQLite file for some time: `lock-holder.ts PATH MS`. */
import { Database } from '#src/store/sqlite-engine.ts'

const [path = '', ms = '0'] = process.argv.slice(2)
const db = new Database(path)
db.exec('begin immediate')
process.stdout.write('held\n')
setTimeout(() => {
  db.exec('commit')
  db.close()
}, Number(ms))
