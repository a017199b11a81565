import { createHmac } from 'node:crypto'
import type { Context } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import { isSame } from './guard.ts'

const COOKIE = 'swardhand-room'
/** Wrong tries that are let through at once, and how long one takes to come back: guessing gets nowhere. */
const MOST_TRIES = 10
const TRY_BACK_MS = 30_000

/** Lets in who knows the secret, and remembers them by a cookie that no script can read. */
export interface Door {
  isIn(context: Context): boolean
  /** False for a wrong secret, and for any while too many were wrong. */
  tryIn(context: Context, secret: string): boolean
}

export function openDoor(secret: string | null, nowMs: () => number = Date.now): Door {
  if (secret === null) return { isIn: () => true, tryIn: () => true }
  const proof = createHmac('sha256', secret).update('swardhand practice page').digest('base64url')
  let wrong: number[] = []
  return {
    isIn: (context) => isSame(getCookie(context, COOKIE) ?? '', proof),
    tryIn(context, tried) {
      wrong = wrong.filter((atMs) => atMs > nowMs() - TRY_BACK_MS)
      if (wrong.length >= MOST_TRIES) return false
      if (!isSame(hash(tried), hash(secret))) {
        wrong.push(nowMs())
        return false
      }
      setCookie(context, COOKIE, proof, { httpOnly: true, sameSite: 'Strict', path: '/' })
      return true
    },
  }
}

/** Both of one length, so that comparing them tells nothing. */
const hash = (text: string) => createHmac('sha256', 'one length').update(text).digest('hex')
