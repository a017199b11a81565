import type { Command } from '#src/desk/command.ts'
import mix from './mix.ts'
import rate from './rate.ts'
import siteAdd from './site-add.ts'

/** Every command, in the order in which people see them. A test compares this list with the folder. */
export const commands: readonly Command[] = [mix, rate, siteAdd]
