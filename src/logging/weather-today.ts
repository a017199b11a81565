import { ConditionsState } from '#src/conditions/options.ts'
import { readingsOf } from '#src/conditions/readings.ts'
import { reader } from '#src/conversation/reader.ts'
import type { Tools } from '#src/desk/command.ts'
import { momentOf } from '#src/desk/moments.ts'
import { decimalText } from '#src/quantity/big.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { inversionSigns, Speed, Temperature } from '#src/record/values.ts'

/** What this person read off for `/conditions` today, with the hour of it; nothing where nobody looked. */
export async function weatherToday(tools: Tools): Promise<RecordDraft> {
  const { store, person, today, crew, locale } = tools
  const [last] = await store.turns.list({ personId: person.id, day: today, command: 'conditions', limit: 1 })
  const kept = last === undefined ? undefined : await store.turns.findByNumber(last.number)
  const read = ConditionsState.safeParse(kept?.state?.data)
  if (last === undefined || !read.success) return {}
  const given = read.data
  const takenAt = momentOf(crew.zone, last.createdAtMs)
  const { wind, temperature, humidityPercent, rainInHours, inversion } = readingsOf(
    given,
    reader(locale),
    tools,
    null,
  )
  const speed = Speed.safeParse(wind)
  const degrees = Temperature.safeParse(temperature)
  return {
    ...(speed.success ? { windSpeed: [{ value: speed.data, takenAt }] } : {}),
    ...(given.wind_from === undefined ? {} : { windFrom: [{ value: given.wind_from, takenAt }] }),
    ...(degrees.success ? { temperature: [{ value: degrees.data, takenAt }] } : {}),
    ...(humidityPercent === undefined
      ? {}
      : { humidityPercent: [{ value: decimalText(humidityPercent), takenAt }] }),
    ...(rainInHours === undefined
      ? {}
      : { rain: [{ value: { hoursUntil: decimalText(rainInHours) }, takenAt }] }),
    ...(inversion === undefined
      ? {}
      : { inversion: inversionSigns.filter((sign) => inversion[sign] === true) }),
  }
}
