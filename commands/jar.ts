import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { defineCommand } from '#src/desk/command.ts'
import { FORM, jarTest } from '#src/jar/jar-test.ts'
import { JarOptions } from '#src/jar/options.ts'
import { answerSeen } from '#src/jar/seen.ts'

/** A jar test: the mix of a tank with several products, scaled to a jar. */
export default defineCommand({
  name: 'jar',
  may: 'crew',
  stopsAfterExposure: true,
  options: JarOptions,
  state: JarOptions,
  start: (given, tools) => jarTest(given, tools),
  async next(given, event, tools) {
    if (event.step === 'seen') return answerSeen(event.value, given)
    if (event.kind === 'press') return jarTest(JarOptions.parse(withSet(given, event.value)), tools)
    if (event.step !== FIGURES) return jarTest(given, tools)
    const merged = JarOptions.parse(withFields(given, event.fields))
    return letCorrect(await jarTest(merged, tools), FORM, event.fields)
  },
})
