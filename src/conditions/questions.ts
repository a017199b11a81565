import { FIGURES, type Figures } from '#src/conversation/ask-figures.ts'
import { SET } from '#src/conversation/ask-for.ts'
import { field } from '#src/conversation/fields.ts'
import type { Choice, Form } from '#src/conversation/reply.ts'
import { sayDroplet } from '#src/conversation/say-droplet.ts'
import { say } from '#src/conversation/text.ts'
import { openInversionQuestions } from '#src/weather/inversion.ts'
import type { Readings } from '#src/weather/readings.ts'
import type { Reason } from '#src/weather/reason.ts'
import { droplets } from './droplets.ts'
import type { ConditionsOptions } from './options.ts'

export const FORM: Pick<Figures, 'form' | 'shapes'> = {
  form: 'conditions.form',
  shapes: {
    droplets: {
      kind: 'choice',
      options: droplets.map((value) => ({ value, label: sayDroplet(value) })),
    },
  },
}

/** Which option answers which question. */
const OPTION_OF: Readonly<Record<string, keyof ConditionsOptions>> = {
  'weather.wind-unknown': 'wind',
  'weather.temperature-unknown': 'temperature',
  'weather.droplets-unknown': 'droplets',
  'weather.rain-unknown': 'rain_in',
}

const MOST_FIELDS = 5

/** One short form for everything that has to be known; who begins with nothing is asked for the whole day. */
export function formFor(stops: readonly Reason[], given: ConditionsOptions): Form | null {
  const needed = [...new Set(stops.map(({ id }) => OPTION_OF[id]).filter((option) => option !== undefined))]
  if (needed.length === 0) return null
  const usual = (['temperature', 'humidity', 'gust'] as const).filter(
    (option) => given[option] === undefined && !needed.includes(option),
  )
  const asked = [...needed, ...(needed.includes('wind') ? usual : [])].slice(0, MOST_FIELDS)
  return {
    title: say('conditions.form.title'),
    open: say('common.fill-in'),
    fields: asked.map((option) =>
      field(FORM.form, option, {
        required: needed.includes(option),
        hint: true,
        ...FORM.shapes?.[option],
      }),
    ),
    to: { step: FIGURES },
  }
}

/** Questions that signs of still, layered air answer. */
const ASKS_FOR_SIGNS = new Set(['weather.calm-ask', 'weather.hour-ask'])

/** Buttons for what is asked: signs that were not looked for yet, sleeping grass, roots. */
export function choicesFor(stops: readonly Reason[], readings: Readings): Choice[] {
  const asked = new Set(stops.map(({ id }) => id))
  if ([...asked].some((id) => ASKS_FOR_SIGNS.has(id))) {
    const open = openInversionQuestions(readings.inversion)
    return [...open, 'none' as const].map((sign) => ({
      label: say(`conditions.sign-${sign}`),
      to: { step: 'sign', value: { sign, open } },
    }))
  }
  if (asked.has('weather.turf-dormant-unknown'))
    return [
      { label: say('mixing.dormant-yes'), to: { step: SET, value: { dormant: true } } },
      { label: say('mixing.dormant-no'), to: { step: SET, value: { dormant: false } } },
    ]
  if (asked.has('weather.tree-roots'))
    return (['allowed', 'forbidden'] as const).map((rule) => ({
      label: say(`conditions.roots-${rule}`),
      to: { step: SET, value: { '@roots': rule } },
    }))
  return []
}
