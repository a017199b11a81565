import { askFigures } from '#src/conversation/ask-figures.ts'
import { SET } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { pick, pickSite } from '#src/mixing/resolve.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { type Area, AreaDetails, type Site } from '#src/store/sites.ts'
import { groundPicture } from './draw-ground.ts'
import { FORM, type MeasuredArea } from './measure-area.ts'
import type { AreaOptions } from './options.ts'

/** Keeps a measured size as that of an area of a property; a name that is not there yet is a new area. */
export async function keepArea(
  given: AreaOptions,
  measured: MeasuredArea,
  tools: Tools,
  /** Somebody has said that this name is no slip. */
  isNew: boolean,
): Promise<Answer> {
  if (!tools.isLead)
    return { reply: reply('refusal', say('desk.lead-only'), { audience: 'person' }), state: given }
  if (given.site === undefined || given.area === undefined) return askWhere(given)
  const site = await pickSite(given, given.site, tools)
  if (!site.ok) return site.ask
  const name = given.area
  const areas = await tools.store.sites.listAreas(site.value.id)
  const known = areas.find((one) => one.name.toLowerCase() === name.toLowerCase())
  if (known === undefined && !isNew) return askNew(given, name, areas)
  await write(known, name, site.value, measured, tools)
  await tools.namesChanged()
  const { area } = measured.worked.value
  return {
    reply: reply('answer', say('ground.kept', { area, name: known?.name ?? name, site: site.value.name }), {
      lines: [
        ...(known === undefined
          ? [say('ground.kept-new', { name })]
          : [say('ground.kept-before', { before: { value: known.squareFeet, unit: 'ft2' } })]),
      ],
      facts: [{ name: 'area', value: factValue(area.value), unit: area.unit }],
      files: [groundPicture(measured.pieces, measured.without, area, known?.name ?? name)],
      safety: { about: ['records'] },
    }),
  }
}

/** A name that is not there yet may be a slip: the nearest are offered beside a new one. */
function askNew(given: AreaOptions, name: string, areas: readonly Area[]): Answer {
  const found = pick(given, 'area', name, areas)
  if (found.ok) throw new RangeError('A known area is not a new one')
  const { reply: asked } = found.ask
  const choice = { label: say('ground.new-area', { name }), to: { step: SET, value: { '@new': true } } }
  return { reply: { ...asked, choices: [...asked.choices, choice] }, state: given }
}

function askWhere(given: AreaOptions): Answer {
  return askFigures(given, say('ground.ask.where'), {
    form: FORM,
    fields: ['site', 'area'],
    about: ['records'],
  })
}

async function write(
  known: Area | undefined,
  name: string,
  site: Site,
  { worked, ground }: MeasuredArea,
  { store, nowMs }: Tools,
): Promise<void> {
  const squareFeet = decimalText(amountIn(worked.value.area, 'ft2').toSignificantDigits(12))
  if (known === undefined)
    await store.sites.createArea(
      { siteId: site.id, name, squareFeet, details: AreaDetails.parse({ measured: ground }) },
      nowMs,
    )
  else await store.sites.updateArea(known.id, { squareFeet, details: { ...known.details, measured: ground } })
}
