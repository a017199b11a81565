import { alsoIn, measureGround } from '#src/calculator/area/measure-ground.ts'
import { strictest } from '#src/calculator/worked.ts'
import { field } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { findPlace } from '#src/mixing/resolve.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { siteCard } from '#src/site/site-card.ts'
import type { AreaOptions } from './options.ts'
import { outlineOf, outlinesWithin } from './outline.ts'
import { readShape } from './read-shape.ts'

/** Works the area out; asks for measures that are missing. */
export async function measure(given: AreaOptions, { locale, isLead }: Tools): Promise<Answer> {
  const read = readShape(given, locale)
  if (read.kind === 'problems')
    return {
      reply: reply('refusal', say('ground.cannot'), { lines: [...read.problems], audience: 'person' }),
    }
  if (read.kind === 'asks') return askMeasures(given, read.missing)
  const { shape, without } = read
  const measured = measureGround({ pieces: [shape], without: [...without] }, given.unit ?? 'ft2')
  if (!measured.ok) {
    const [first, ...rest] = measured.problems
    const outcome = first?.outcome === 'question' ? 'question' : 'refusal'
    return {
      reply: reply(outcome, first === undefined ? say('ground.cannot') : sayStep(first), {
        lines: rest.map(sayStep),
        audience: 'person',
      }),
    }
  }
  const { area } = measured.value
  const other = alsoIn(area, area.unit === 'acre' ? 'ft2' : 'acre')
  const squareFeet = decimalText(amountIn(area, 'ft2').toDecimalPlaces(1))
  return {
    reply: reply(strictest(measured.findings), say('ground.area', { area }), {
      lines: [say('ground.same', { area: other }), ...measured.findings.map(sayStep)],
      facts: [
        { name: 'area', value: factValue(area.value), unit: area.unit },
        { name: 'area_also', value: factValue(other.value), unit: other.unit },
      ],
      working: measured.working.map(sayStep),
      files: [
        {
          name: 'area.png',
          alt: say('ground.picture', { area }),
          from: {
            picture: 'area-shape',
            data: {
              area: { say: 'ground.area', with: { area: { ...area } } },
              outlines: [{ points: outlineOf(shape) }, ...outlinesWithin(without)],
            },
          },
        },
      ],
      choices: isLead ? [{ label: say('ground.keep'), to: { step: 'keep' }, who: 'lead' as const }] : [],
      safety: { about: ['records'] },
    }),
    state: { given, squareFeet },
  }
}

function askMeasures(given: AreaOptions, missing: readonly (keyof AreaOptions)[]): Answer {
  return {
    reply: reply('question', say('ground.needs', { shape: say(`ground.shape-${given.shape}`) }), {
      audience: 'person',
      form: {
        title: say('ground.form.title'),
        open: say('common.fill-in'),
        fields: missing
          .slice(0, 5)
          .map((option) => field('ground.form', option, { required: true, hint: true })),
        to: { step: 'measures' },
      },
      safety: { about: ['records'] },
    }),
    state: { given, squareFeet: null },
  }
}

/** Puts the measured size on an area of a site. */
export async function keepArea(given: AreaOptions, squareFeet: string, tools: Tools): Promise<Answer> {
  const state = { given, squareFeet }
  if (!tools.isLead) return { reply: reply('refusal', say('desk.lead-only'), { audience: 'person' }) }
  if (given.site === undefined)
    return {
      reply: reply('question', say('ground.which-site'), {
        audience: 'person',
        form: {
          title: say('ground.form.title'),
          open: say('common.fill-in'),
          fields: [
            field('ground.form', 'site', { required: true }),
            field('ground.form', 'area', { required: true }),
          ],
          to: { step: 'keep' },
        },
      }),
      state,
    }
  const place = await findPlace(given, tools)
  if (!place.ok) return { ...place.ask, state }
  const { site, area } = place.value
  if (site === null || area === null)
    return { reply: reply('refusal', say('site.unknown'), { audience: 'person' }) }
  await tools.store.sites.updateArea(area.id, { squareFeet })
  await tools.namesChanged()
  return {
    reply: await siteCard(
      tools,
      site.id,
      say('ground.kept', { area: { value: squareFeet, unit: 'ft2' }, name: area.name, site: site.name }),
    ),
  }
}
