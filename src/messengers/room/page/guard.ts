import { timingSafeEqual } from 'node:crypto'
import type { Context, MiddlewareHandler } from 'hono'

/** Header that carries the page's token: a form of another page cannot set it. */
export const TOKEN_HEADER = 'x-room-token'

const LOOPBACK = new Set(['localhost', '127.0.0.1', '[::1]'])

/** Where the page is served: on this machine only, or for everybody who knows the secret. */
export interface Place {
  readonly isOpen: boolean
}

/**
 * Refuses what no page of ours has sent. A name that somebody else points to this machine is no name of ours; a POST
 * must come from this very origin and carry the token; what is read may come from here or be opened by hand.
 */
export function guard(place: Place, token: string): MiddlewareHandler {
  return async (context, next) => {
    const host = context.req.header('host') ?? ''
    if (!place.isOpen && !LOOPBACK.has(host.replace(/:\d+$/, ''))) return context.text('Wrong host', 421)
    const site = context.req.header('sec-fetch-site')
    const origin = context.req.header('origin')
    if (context.req.method === 'POST') {
      if (!isOwn(origin, host) || (site !== undefined && site !== 'same-origin'))
        return context.text('Wrong origin', 403)
      if (context.req.path !== SIGN_IN && !isSame(context.req.header(TOKEN_HEADER) ?? '', token))
        return context.text('Old page', 409)
    } else if (context.req.method === 'GET') {
      const isPage = context.req.path === '/'
      const mayRead = isPage || site === undefined || site === 'same-origin' || site === 'none'
      if (!mayRead || (origin !== undefined && !isOwn(origin, host))) return context.text('Wrong origin', 403)
    } else return context.text('Wrong method', 405)
    return next()
  }
}

export const SIGN_IN = '/enter'

function isOwn(origin: string | undefined, host: string): boolean {
  try {
    return origin !== undefined && new URL(origin).host === new URL(`http://${host}`).host
  } catch {
    return false
  }
}

/** Compares without telling by the time it takes how much was right. */
export function isSame(one: string, other: string): boolean {
  const [left, right] = [Buffer.from(one), Buffer.from(other)]
  return left.byteLength === right.byteLength && timingSafeEqual(left, right)
}

/** What every answer carries: nothing from elsewhere is loaded, nothing inline runs, nobody frames it. */
export function setHeaders(context: Context): void {
  for (const [name, value] of Object.entries(HEADERS)) context.header(name, value)
}

const HEADERS = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self'",
    "connect-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join('; '),
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), payment=()',
  'x-frame-options': 'DENY',
  'cache-control': 'no-store',
} as const
