import { html, raw } from 'hono/html'
import type { Bot } from '#src/bot.ts'
import { say } from '#src/conversation/text.ts'
import type { Person } from '#src/store/people.ts'
import { type InWords, inWordsOf } from './in-words.ts'
import type { Viewer } from './people.ts'
import type { PageStart } from './shapes.ts'

type Markup = ReturnType<typeof html>

interface Frame {
  readonly lang: string
  readonly title: string
  readonly body: Markup
  readonly start?: PageStart
}

/** Everything is escaped by the template; data for the script stand in a block that no browser runs. */
function frame({ lang, title, body, start }: Frame): Markup {
  return html`<!doctype html>
<html lang="${lang}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1, interactive-widget=resizes-content">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<link rel="icon" href="/assets/icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="/assets/style.css">
${start === undefined ? '' : html`<script type="application/json" id="start">${raw(jsonBlock(start))}</script><script type="module" src="/assets/script.js"></script>`}
</head>
<body>${body}</body>
</html>`
}

/** JSON that cannot end its own block. */
const jsonBlock = (data: unknown) => JSON.stringify(data).replaceAll('<', '\\u003c')

const banner = (inWords: InWords) => html`<p class="banner">${inWords(say('page.banner'))}</p>`

/** The first page: who are you? Plain links, so that each window can be somebody else. */
export function whoPage(bot: Bot, zone: string, people: readonly Person[]): Markup {
  const inWords = inWordsOf(bot.words, 'en', zone)
  const body = html`${banner(inWords)}
<main class="who">
<h1>${inWords(say('page.who'))}</h1>
<p>${inWords(say('page.who-about'))}</p>
<ul>${people.map((person) => personLink(bot, zone, person))}</ul>
</main>`
  return frame({ lang: 'en', title: inWords(say('page.title')), body })
}

function personLink(bot: Bot, zone: string, person: Person): Markup {
  const lang = bot.words.closest(person.language ?? 'en')
  const inWords = inWordsOf(bot.words, lang, zone)
  const role =
    person.settings.license !== null
      ? say('page.role-licensed')
      : person.leads
        ? say('page.role-lead')
        : say('page.role-crew')
  return html`<li><a href="/?as=${person.key}" lang="${lang}"><b>${person.name}</b><span>${inWords(role)}</span></a></li>`
}

/** The room of one person. What changes is filled in by the script. */
export function roomPage(
  bot: Bot,
  viewer: Viewer,
  start: PageStart,
  [time, day]: readonly [string, string],
): Markup {
  const inWords = inWordsOf(bot.words, viewer.locale, viewer.crew.zone)
  const word = (id: string) => inWords(say(id))
  const body = html`<a class="skip" href="#line">${word('page.skip')}</a>
${banner(inWords)}
<header class="bar">
<a class="you" href="/"><span>${word('page.you-are')}</span> <b>${viewer.person.name}</b></a>
<button type="button" class="clock" id="clock" aria-haspopup="dialog"><b><span class="unseen">${word('page.clock')}: </span><span id="time">${time}</span></b> <span id="day">${day}</span></button>
</header>
<p class="lost" id="lost" role="status" hidden></p>
<section class="tour" id="tour" aria-labelledby="tour-head" hidden></section>
<main id="main" tabindex="0">
<h1 class="unseen">${inWords(say('page.sheet-of', { name: viewer.person.name }))}</h1>
<ol class="sheet" id="sheet"></ol>
</main>
<div class="unseen" id="told" role="log" aria-live="polite"></div>
<form class="entry" id="entry" autocomplete="off">
<div class="offers" id="offers" role="listbox" aria-label="${word('page.suggestions')}" hidden></div>
<button type="button" class="slash" id="commands" aria-haspopup="dialog"><b aria-hidden="true">/</b><span>${word('page.all-commands')}</span></button>
<label class="unseen" for="line">${word('page.line')}</label>
<input id="line" name="line" type="text" role="combobox" aria-expanded="false" aria-controls="offers" aria-autocomplete="list" autocapitalize="none" autocorrect="off" spellcheck="false" enterkeyhint="send" maxlength="9000" placeholder="${word('page.line-hint')}">
<button type="submit" class="send">${word('page.send')}</button>
</form>
<noscript><p class="lost">${word('page.no-script')}</p></noscript>`
  return frame({ lang: viewer.locale, title: `${viewer.person.name}: ${word('page.title')}`, body, start })
}

/** Asks for the secret where the page is open to other machines. */
export function signInPage(bot: Bot, zone: string, isWrong: boolean): Markup {
  const inWords = inWordsOf(bot.words, 'en', zone)
  const body = html`${banner(inWords)}
<main class="who">
<h1>${inWords(say('page.secret'))}</h1>
<form method="post" action="/enter" class="secret">
<label for="secret">${inWords(say('page.secret-label'))}</label>
<input id="secret" name="secret" type="password" required autocomplete="current-password" maxlength="200" ${isWrong ? raw('aria-invalid="true" aria-describedby="wrong"') : ''}>
${isWrong ? html`<p class="problem" id="wrong">${inWords(say('page.secret-wrong'))}</p>` : ''}
<button type="submit" class="main">${inWords(say('page.secret-go'))}</button>
</form>
</main>`
  return frame({ lang: 'en', title: inWords(say('page.title')), body })
}
