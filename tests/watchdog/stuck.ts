/** A process with a watchdog that stops moving: `stuck.ts loop|gateway`. */
import { startWatchdog } from '#src/watchdog.ts'

const [how] = process.argv.slice(2)
startWatchdog({
  everyMs: 20,
  stuckAfter: 25,
  unwellAfter: 10,
  isWell: () => how !== 'gateway',
  onUnwell: () => {
    process.stdout.write('unwell\n')
    process.exit(1)
  },
})
process.stdout.write('started\n')
// Busy for a while, as drawing a chart is, which is no reason to end.
setTimeout(() => {
  const until = Date.now() + 150
  while (Date.now() < until);
  process.stdout.write('was busy\n')
}, 50)
if (how === 'loop')
  setTimeout(() => {
    for (;;);
  }, 400)
setTimeout(() => process.stdout.write('went on\n'), 900)
setTimeout(() => process.exit(0), 1000)
