import { z } from 'zod'
import { reader } from '#src/conversation/reader.ts'
import { type ReplyParts, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { readAddress } from '#src/logging/from-place.ts'
import { rulesOf } from '#src/logging/rule-tables.ts'
import { readElevation } from '#src/site/elevation.ts'
import type { Crew, CrewChange } from '#src/store/crews.ts'
import { languageIds, languageName } from '#src/words/languages.ts'

const days = z.int().min(1).max(3650).optional()

/** How the crew works: state, time zone, language, units, who leads, and when a measurement is too old. */
export default defineCommand({
  name: 'setup crew',
  may: 'lead',
  options: z.strictObject({
    state: z.string().min(2).max(20).optional(),
    zone: z.string().min(1).max(60).optional(),
    language: z.enum(languageIds()).optional(),
    units: z.enum(['us', 'metric']).optional(),
    elevation: z.string().min(1).max(40).optional(),
    lead_role: z.string().min(1).max(40).optional().meta({ role: true }),
    calibration_note: days,
    calibration_hold: days,
    label_check: days,
    company: z.string().min(1).max(120).optional(),
    company_license: z.string().min(1).max(60).optional(),
    company_address: z.string().min(1).max(200).optional(),
    keep_years: z.int().min(1).max(50).optional(),
  }),
  async start(given, { crew, locale, updateCrew }) {
    const read = reader(locale)
    const elevation = readElevation(given.elevation, read, given.units ?? crew.settings.units)
    const problems: Text[] = [...read.problems]
    const state = given.state === undefined ? undefined : readState(given.state)
    if (state === null) problems.push(say('setup.state-unknown', { state: given.state ?? '' }))
    if (given.zone !== undefined && !isZone(given.zone))
      problems.push(say('setup.zone-unknown', { zone: given.zone }))
    const note = given.calibration_note ?? crew.settings.calibrationNoteDays
    const hold = given.calibration_hold ?? crew.settings.calibrationHoldDays
    if (note > hold) problems.push(say('setup.note-after-hold', { note, hold }))
    if (given.company_address !== undefined && readAddress(given.company_address) === null)
      problems.push(say('setup.address-unread', { typed: given.company_address }))
    if (problems.length > 0)
      return { reply: reply('refusal', say('setup.cannot'), { lines: problems, audience: 'person' }) }
    const change: CrewChange = {
      ...(state == null ? {} : { state }),
      ...(given.zone === undefined ? {} : { zone: given.zone }),
      ...(given.language === undefined ? {} : { language: given.language }),
      settings: {
        ...crew.settings,
        units: given.units ?? crew.settings.units,
        elevation: elevation ?? crew.settings.elevation,
        leadRole: given.lead_role === undefined ? crew.settings.leadRole : readRole(given.lead_role),
        calibrationNoteDays: note,
        calibrationHoldDays: hold,
        labelConfirmDays: given.label_check ?? crew.settings.labelConfirmDays,
        company: {
          name: given.company ?? crew.settings.company.name,
          license: given.company_license ?? crew.settings.company.license,
          address: given.company_address ?? crew.settings.company.address,
        },
        keepYears: given.keep_years ?? crew.settings.keepYears,
      },
    }
    await updateCrew(change)
    return { reply: reply('answer', say('setup.crew', { name: crew.name }), card({ ...crew, ...change })) }
  },
})

function card({ state, zone, language, settings }: Crew): ReplyParts {
  return {
    lines: [
      say('setup.state', { state: state ?? say('setup.state-none') }),
      ...(state !== null && rulesOf(state).isFallback ? [say('setup.state-no-table', { state })] : []),
      say('setup.zone', { zone }),
      say('setup.language', { language: { literal: languageName(language) } }),
      say('setup.units', { units: say(`setup.units-${settings.units}`) }),
      ...(settings.elevation === null ? [] : [say('setup.elevation', { elevation: settings.elevation })]),
      say('setup.lead-role', { role: roleName(settings.leadRole) }),
      say('setup.calibration', { note: settings.calibrationNoteDays, hold: settings.calibrationHoldDays }),
      say('setup.label', { days: settings.labelConfirmDays, hold: settings.labelHoldDaysAfter }),
      say('setup.company', {
        name: settings.company.name === '' ? say('setup.company-none') : settings.company.name,
      }),
      say('setup.keep-years', { years: settings.keepYears }),
      ...settings.tools.map(({ name, step }) => say('setup.tool', { name, step })),
    ],
    audience: 'person',
    safety: { about: ['records'] },
  }
}

/** The two letters of a US state, district or territory. */
const STATES =
  'AL AK AZ AR CA CO CT DE DC FL GA GU HI ID IL IN IA KS KY LA ME MD MA MI MN MS MO MT NE NV NH NJ NM NY NC ND OH OK OR PA PR RI SC SD TN TX UT VT VI VA WA WV WI WY'.split(
    ' ',
  )

function readState(text: string): string | null {
  const wanted = text.trim().toUpperCase()
  return STATES.includes(wanted) ? wanted : null
}

/** A role that was chosen is kept by its number, which people know by its end at most. */
function roleName(role: string | null): string | Text {
  if (role === null) return say('setup.lead-role-none')
  return /^\d{15,20}$/.test(role) ? say('setup.lead-role-chosen', { end: role.slice(-4) }) : role
}

/** A role mention is taken apart to the role's id; a name stays a name. */
function readRole(text: string): string {
  return /^<@&(\d+)>$/.exec(text.trim())?.[1] ?? text.trim()
}

function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: zone })
    return true
  } catch {
    return false
  }
}
