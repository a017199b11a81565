import { jarSigns, judgeJar } from '#src/calculator/order/jar.ts'
import { reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import type { JarOptions } from './options.ts'

/** What the jar showed after the wait: a single sign is a hold; none is no proof. */
export function answerSeen(seen: unknown, { product, also }: JarOptions): Answer {
  const found = judgeJar(jarSigns.filter((sign) => sign === seen))
  const products = [product ?? '', ...(also ?? '').split(/\s*[;\n]\s*/)].filter((one) => one !== '')
  return {
    reply: reply(found.outcome, sayStep(found), {
      lines: [say('jar.of', { products: { all: products } }), say('jar.rinse')],
      facts: [{ name: 'seen', value: String(seen) }],
      safety: { about: ['mixing', 'cleanup'] },
    }),
  }
}
