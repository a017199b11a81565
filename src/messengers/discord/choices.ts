import {
  type APIActionRowComponent,
  type APIButtonComponentWithCustomId,
  type APIComponentInContainer,
  type APIComponentInMessageActionRow,
  type APISelectMenuOption,
  ButtonStyle,
  ComponentType,
} from 'discord.js'
import type { PresentedChoice } from '#src/messengers/present.ts'
import { type CustomId, type Marks, writeCustomId, writeHead } from './custom-id.ts'
import { cutText, shownCost } from './cut.ts'
import { escapeText, oneLine } from './escape.ts'
import { COMPONENT, MESSAGE } from './limits.ts'

/** A choice as it is presented, and whether it may be pressed again. */
export type ButtonChoice = PresentedChoice & { readonly repeat: boolean }

export interface ChoiceStyle {
  readonly turnId: number
  readonly marks: Marks
  readonly guild: string | null
  /** Said inside a menu before anything is chosen. */
  readonly placeholder: string
  /** Components that the message has left for the choices. */
  readonly room: number
}

export type Row = APIActionRowComponent<APIComponentInMessageActionRow>

const STYLES = {
  main: ButtonStyle.Primary,
  plain: ButtonStyle.Secondary,
  stop: ButtonStyle.Danger,
} as const

/** Up to this many choices with hints stand one below the other, each hint beside its button. */
const SECTIONS = 5
/** Above five choices, buttons only when all labels are this short: a phone shows about three in a row. */
const SHORT_LABEL = 20
/** Common practice, no source: a hint beside a button is a line or two. */
const HINT_COST = 160

/** Choices as what serves a thumb best: sections with hints, rows of buttons, or one menu. */
export function layChoices(choices: readonly ButtonChoice[], style: ChoiceStyle): APIComponentInContainer[] {
  if (choices.length === 0) return []
  const hinted = choices.some((choice) => choice.hint !== null)
  if (hinted && choices.length <= SECTIONS && choices.length * 3 <= style.room)
    return choices.map((choice, at) => sectionOf(choice, at, style))
  const short = choices.every((choice) => choice.label.length <= SHORT_LABEL) && !hinted
  const needed = choices.length + Math.ceil(choices.length / MESSAGE.buttonsPerRow)
  if ((choices.length <= MESSAGE.buttonsPerRow || short) && needed <= style.room)
    return rowsOf(choices.map((choice, at) => buttonOf(choice, at, style)))
  return [menuOf(choices, style)]
}

/** Buttons in rows of five. */
export function rowsOf(buttons: readonly APIButtonComponentWithCustomId[]): Row[] {
  const rows: Row[] = []
  for (let at = 0; at < buttons.length; at += MESSAGE.buttonsPerRow)
    rows.push({
      type: ComponentType.ActionRow,
      components: buttons.slice(at, at + MESSAGE.buttonsPerRow),
    })
  return rows
}

/** One button; its label is cut at sense. */
export function button(
  label: string,
  id: CustomId,
  style: APIButtonComponentWithCustomId['style'] = ButtonStyle.Secondary,
): APIButtonComponentWithCustomId {
  return {
    type: ComponentType.Button,
    style,
    label: cutText(oneLine(label), COMPONENT.buttonLabel) || '…',
    custom_id: writeCustomId(id),
  }
}

function idOf(choice: ButtonChoice, { marks, guild }: ChoiceStyle): CustomId {
  return { head: choice.token, marks: { ...marks, repeat: choice.repeat }, guild }
}

function labelOf(choice: ButtonChoice, at: number): string {
  return oneLine(choice.label) || String(at + 1)
}

function buttonOf(choice: ButtonChoice, at: number, style: ChoiceStyle): APIButtonComponentWithCustomId {
  return button(labelOf(choice, at), idOf(choice, style), STYLES[choice.look])
}

function sectionOf(choice: ButtonChoice, at: number, style: ChoiceStyle): APIComponentInContainer {
  const hint = oneLine(choice.hint ?? '') || labelOf(choice, at)
  return {
    type: ComponentType.Section,
    components: [
      { type: ComponentType.TextDisplay, content: escapeText(cutText(hint, HINT_COST, shownCost)) || '…' },
    ],
    accessory: buttonOf(choice, at, style),
  }
}

function menuOf(choices: readonly ButtonChoice[], { turnId, marks, guild, placeholder }: ChoiceStyle): Row {
  const repeat = choices.some((choice) => choice.repeat)
  const options = choices.slice(0, COMPONENT.selectOptions).map((choice, at): APISelectMenuOption => {
    const hint = cutText(oneLine(choice.hint ?? ''), COMPONENT.optionText)
    return {
      label: cutText(labelOf(choice, at), COMPONENT.optionText) || String(at + 1),
      value: choice.token,
      ...(hint === '' ? {} : { description: hint }),
    }
  })
  const id = { head: writeHead({ kind: 'menu', turnId }), marks: { ...marks, repeat }, guild }
  return {
    type: ComponentType.ActionRow,
    components: [
      {
        type: ComponentType.StringSelect,
        custom_id: writeCustomId(id),
        placeholder: cutText(oneLine(placeholder), COMPONENT.placeholder) || '…',
        options,
      },
    ],
  }
}
