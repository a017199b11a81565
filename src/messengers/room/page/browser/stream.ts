/// <reference lib="dom" />
import type { PageNews } from '../shapes.ts'
import { onLost, renewToken } from './server.ts'
import { start } from './start.ts'

const AGAIN_MS = 1500

/** Listens for answers, from where it left off whenever the connection breaks. */
export function listen(hear: (news: PageNews) => void, lost: (isLost: boolean) => void): void {
  let last: string | null = null
  const open = () => {
    const after = last === null ? '' : `&after=${last}`
    const source = new EventSource(`/events?as=${encodeURIComponent(start.person)}${after}`)
    source.onmessage = (event: MessageEvent<string>) => {
      lost(false)
      if (event.lastEventId !== '') last = event.lastEventId
      const news = JSON.parse(event.data) as PageNews | null
      if (news === null) return
      renewToken(news.token)
      hear(news)
    }
    source.onerror = () => {
      lost(true)
      // The browser comes back by itself unless it was refused.
      if (source.readyState !== EventSource.CLOSED) return
      setTimeout(open, AGAIN_MS)
    }
  }
  onLost(lost)
  open()
}
