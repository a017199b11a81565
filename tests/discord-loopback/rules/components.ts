import { ComponentType } from 'discord-api-types/v10'
import {
  anything,
  type Check,
  choice,
  isObject,
  list,
  listOf,
  maybe,
  objectsOf,
  shape,
  text,
  truth,
  whole,
} from './check.ts'
import type { Findings, Path } from './findings.ts'
import { button, checkUniqueIds, SELECT_TYPES, select, typeAndId, walkComponents } from './parts.ts'
import { mediaUrl } from './urls.ts'

/** Discord developer docs, components/reference; the text total from discord/discord-api-docs#8562. */
export const ROWS_PER_LEGACY_MESSAGE = 5
export const BUTTONS_PER_ROW = 5
export const COMPONENTS_PER_V2_MESSAGE = 40
export const TEXT_PER_V2_MESSAGE = 4000

const notAllowed = (findings: Findings, path: Path, allowed: readonly number[]) =>
  findings.breach(
    [...path, 'type'],
    'BASE_TYPE_CHOICES',
    `Value of field "type" must be one of (${allowed.join(', ')},).`,
  )

/** Looks a component's check up by its type; a type that may not stand here is a breach. */
function byType(checks: Record<number, Check>): Check {
  const allowed = Object.keys(checks).map(Number)
  return (value, path, findings) => {
    if (!isObject(value))
      return findings.breach(path, 'MODEL_TYPE_CONVERT', 'Only dictionaries may be used in a ModelType')
    const check = checks[Number(value.type)]
    if (check === undefined) return notAllowed(findings, path, allowed)
    check(value, path, findings)
  }
}

const rowChild = byType({
  [ComponentType.Button]: button,
  ...Object.fromEntries(SELECT_TYPES.map((type) => [type, select])),
})

/** One to five buttons, or one select menu alone. */
const row: Check = (value, path, findings) => {
  shape({ ...typeAndId, components: list(rowChild, 1, BUTTONS_PER_ROW) })(value, path, findings)
  const children = objectsOf(isObject(value) ? value.components : [])
  const selects = children.filter((each) => SELECT_TYPES.includes(Number(each.type)))
  if (selects.length > 0 && children.length > 1)
    findings.breach(
      [...path, 'components'],
      'COMPONENT_LAYOUT_WIDTH_EXCEEDED',
      'The specified component exceeds the maximum width',
    )
}

const textDisplay = shape({ ...typeAndId, content: text(1, 4000) })

function v2Checks(fileNames: readonly string[]): { top: Check } {
  const media = shape({ url: mediaUrl(fileNames) })
  const described = { description: maybe(text(0, 1024)), spoiler: maybe(truth) }
  const thumbnail = shape({ ...typeAndId, media, ...described })
  const accessory = byType({ [ComponentType.Button]: button, [ComponentType.Thumbnail]: thumbnail })
  const section = shape({
    ...typeAndId,
    components: list(byType({ [ComponentType.TextDisplay]: textDisplay }), 1, 3),
    accessory,
  })
  const gallery = shape({ ...typeAndId, items: list(shape({ media, ...described }), 1, 10) })
  const file = shape({
    ...typeAndId,
    file: shape({ url: mediaUrl(fileNames, ['attachment']) }),
    spoiler: maybe(truth),
    name: anything,
    size: anything,
  })
  const separator = shape({ ...typeAndId, divider: maybe(truth), spacing: maybe(choice(1, 2)) })
  const inContainer = {
    [ComponentType.ActionRow]: row,
    [ComponentType.TextDisplay]: textDisplay,
    [ComponentType.Section]: section,
    [ComponentType.MediaGallery]: gallery,
    [ComponentType.File]: file,
    [ComponentType.Separator]: separator,
  }
  const container = shape({
    ...typeAndId,
    components: list(byType(inContainer), 1, COMPONENTS_PER_V2_MESSAGE),
    accent_color: maybe(whole(0, 0xffffff)),
    spoiler: maybe(truth),
  })
  return { top: byType({ ...inContainer, [ComponentType.Container]: container }) }
}

const legacyTop = byType({ [ComponentType.ActionRow]: row })

function checkV2Totals(value: unknown, path: Path, findings: Findings): void {
  const all = [...walkComponents(value, path)].map(({ one }) => one)
  if (all.length > COMPONENTS_PER_V2_MESSAGE)
    findings.breach(
      path,
      'COMPONENT_MAX_TOTAL_COMPONENTS_EXCEEDED',
      `The total number of components cannot exceed ${COMPONENTS_PER_V2_MESSAGE}`,
    )
  const texts = all.filter((each) => each.type === ComponentType.TextDisplay)
  const length = texts.reduce((sum, each) => sum + String(each.content ?? '').length, 0)
  if (length > TEXT_PER_V2_MESSAGE)
    findings.breach(
      path,
      'COMPONENT_DISPLAYABLE_TEXT_SIZE_EXCEEDED',
      `The total displayable text size cannot exceed ${TEXT_PER_V2_MESSAGE}`,
    )
}

/** The components of a message, legacy (rows only) or V2. */
export function checkComponents(
  value: unknown,
  path: Path,
  findings: Findings,
  as: { v2: boolean; fileNames: readonly string[] },
) {
  checkUniqueIds(value, path, findings)
  if (!as.v2) return list(legacyTop, 0, ROWS_PER_LEGACY_MESSAGE)(value, path, findings)
  list(v2Checks(as.fileNames).top, 0, COMPONENTS_PER_V2_MESSAGE)(listOf(value), path, findings)
  checkV2Totals(value, path, findings)
}
