import type { Route } from './call.ts'
import { callbackRoutes } from './callback-route.ts'
import { channelRoutes } from './channel-routes.ts'
import { commandRoutes } from './command-routes.ts'
import { peopleRoutes } from './people-routes.ts'
import { webhookRoutes } from './webhook-routes.ts'

/** Literal paths stand before those with parameters in their place (`@me`, `@original`). */
export const ROUTES: readonly Route[] = [
  ...callbackRoutes,
  ...webhookRoutes,
  ...channelRoutes,
  ...commandRoutes,
  ...peopleRoutes,
]

const NAME = /^\{(\w+)\}$/

/** Parameters if the path fits the template, e.g. `/users/{user_id}` on `/users/1`. */
function matchTemplate(template: string, segments: readonly string[]): Record<string, string> | undefined {
  const parts = template.split('/').slice(1)
  if (parts.length !== segments.length) return undefined
  const params: Record<string, string> = {}
  for (const [index, part] of parts.entries()) {
    const segment = segments[index] ?? ''
    const name = NAME.exec(part)?.[1]
    if (name !== undefined) params[name] = segment
    else if (part !== segment) return undefined
  }
  return params
}

/** The route for a path below `/api/v10`; segments are decoded first (`%40original`). */
export function findRoute(
  method: string,
  path: string,
): { route: Route; params: Record<string, string> } | undefined {
  const segments = path.split('/').slice(1).map(decodeURIComponent)
  for (const route of ROUTES) {
    if (route.method !== method) continue
    const params = matchTemplate(route.template, segments)
    if (params !== undefined) return { route, params }
  }
  return undefined
}
