import { refill, textOf } from '#src/conversation/fields.ts'
import { reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, FieldValue, Tools } from '#src/desk/command.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { setupOf } from '#src/store/sprayers.ts'
import { mix } from './mix.ts'
import type { MixOptions } from './options.ts'
import { askForOutput } from './output.ts'
import { findNamed } from './resolve.ts'

/** The two numbers of a test with water: kept as a calibration of this sprayer in this person's hands, then used. */
export async function keepTest(
  given: MixOptions,
  fields: Readonly<Record<string, FieldValue>>,
  tools: Tools,
): Promise<Answer> {
  const typed = textOf(fields, 'output')
  if (typed !== '') return mix({ ...given, output: typed }, tools)
  const read = reader(tools.locale)
  const ground = read.quantity('ground', textOf(fields, 'test_ground'), { expect: 'area', bareUnit: 'ft2' })
  const used = read.quantity('used', textOf(fields, 'test_used'), { expect: 'volume', bareUnit: 'gal' })
  if (ground === undefined || used === undefined) {
    const again = askForOutput(given, say('common.not-yet'))
    const { form } = again.reply
    return {
      ...again,
      reply: {
        ...again.reply,
        lines: [...read.problems],
        form:
          form === null
            ? null
            : { ...form, open: say('common.correct-it'), fields: refill(form.fields, fields) },
      },
    }
  }
  const output = decimalText(amountIn(used, 'gal').div(amountIn(ground, '1000 ft2')).toSignificantDigits(6))
  const named = await findNamed(given, tools)
  if (named.ok && named.value.sprayer !== null)
    await tools.store.sprayers.keepCalibration(
      {
        sprayerId: named.value.sprayer.id,
        personId: named.value.person.id,
        setup: setupOf(named.value.sprayer.details),
        output: { value: output, unit: 'gal/1000 ft2' },
        measuredOn: tools.today,
        details: { method: 'hand', ground, used },
      },
      tools.nowMs,
    )
  return mix({ ...given, output: `${output} gal/1000 ft2` }, tools)
}
