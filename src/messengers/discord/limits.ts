/**
 * What the platform accepts. Its client checks only some of these and its published description fewer, so all of
 * them are kept here. Source: Discord developer docs, pages named beside each group.
 */

/** resources/message, components/reference. */
export const MESSAGE = {
  components: 40,
  buttonsPerRow: 5,
  files: 10,
  altText: 1024,
  fileName: 100,
  nonce: 25,
  /** Over all text displays of a message (discord/discord-api-docs#8562). */
  text: 4000,
  /** A message above about 10,170 bytes of text was answered with an error (discord/discord-api-docs#8554). */
  textBytes: 10_000,
} as const

/** components/reference. */
export const COMPONENT = {
  customId: 100,
  buttonLabel: 80,
  selectOptions: 25,
  optionText: 100,
  placeholder: 150,
} as const

/** components/reference, interactions/receiving-and-responding. */
export const MODAL = {
  title: 45,
  components: 5,
  label: 45,
  description: 100,
  value: 4000,
  text: 4000,
} as const

/** interactions/application-commands. */
export const COMMAND = {
  name: 32,
  description: 100,
  options: 25,
  choices: 25,
  choiceName: 100,
  choiceValue: 100,
  textLength: 6000,
  characters: 8000,
  commands: 100,
} as const

export const SUGGESTIONS = { count: 25, name: 100, value: 100 } as const

/** interactions/receiving-and-responding: time to the first response. */
export const FIRST_RESPONSE_MS = 3000
