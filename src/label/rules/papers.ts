import { addDays, daysBetween } from '../day.ts'
import type { ReasonId } from '../ids.ts'
import type { RegistrationProblem } from '../registration.ts'
import { readLocalNeedState, readRegistrationNumber } from '../registration.ts'
import type { Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'

const PROBLEMS: Record<RegistrationProblem, ReasonId> = {
  malformed: 'registration-malformed',
  'file-symbol': 'registration-file-symbol',
  establishment: 'registration-establishment',
}

/** A number that is none, that stands for no registration, or that belongs to another state. */
export function checkRegistration({ entry, situation }: Case): readonly Reason[] {
  const { number, exempt25b, specialLocalNeed, states } = entry.registration
  return [
    ...(number === undefined ? withoutNumber(exempt25b) : numberReasons(number)),
    ...localNeedReasons(specialLocalNeed, situation.state),
    ...(states && situation.state !== undefined && !states.includes(situation.state)
      ? [reason('refusal', 'not-registered-in-state', { state: situation.state })]
      : []),
  ]
}

function withoutNumber(exempt: true | undefined): Reason[] {
  return exempt ? [] : [reason('refusal', 'registration-missing')]
}

function numberReasons(number: string): Reason[] {
  const read = readRegistrationNumber(number)
  if (!read.ok) return [reason('refusal', PROBLEMS[read.error], { number })]
  return read.value.experimental ? [reason('hold', 'registration-experimental', { number })] : []
}

function localNeedReasons(number: string | undefined, state: string | undefined): Reason[] {
  if (number === undefined || state === undefined) return []
  const given = readLocalNeedState(number)
  if (given === null) return [reason('refusal', 'local-need-malformed', { number })]
  return given === state ? [] : [reason('refusal', 'local-need-elsewhere', { number, state })]
}

export function checkRestricted({ entry, situation }: Case): readonly Reason[] {
  return entry.restricted && !situation.licensed ? [reason('refusal', 'restricted-use')] : []
}

/** Told ahead, noted when due, held when long overdue: a label may have changed since somebody last looked. */
export function checkConfirmed({ situation, settings }: Case): readonly Reason[] {
  const { lastConfirmedOn, today } = situation
  if (lastConfirmedOn === null) return [reason('hold', 'never-confirmed')]
  const days = daysBetween(lastConfirmedOn, today)
  const due = { day: addDays(lastConfirmedOn, settings.confirmEveryDays) }
  const since = { day: lastConfirmedOn }
  if (days > settings.confirmEveryDays + settings.confirmHoldDays) {
    return [reason('hold', 'confirm-overdue', { since })]
  }
  if (days > settings.confirmEveryDays) return [reason('heads-up', 'confirm-due', { since })]
  if (days >= settings.confirmEveryDays - settings.confirmNoteDays)
    return [reason('answer', 'confirm-soon', { due })]
  return []
}
