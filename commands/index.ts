import type { Command } from '#src/desk/command.ts'
import answers from './answers.ts'
import emergency from './emergency.ts'
import last from './last.ts'
import mix from './mix.ts'
import rate from './rate.ts'
import siteAdd from './site-add.ts'

/** Every command, in the order in which people see them. A test compares this list with the folder. */
export const commands: readonly Command[] = [emergency, mix, rate, last, answers, siteAdd]
