import { expect, test } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, startCrew } from './crew.ts'

const FOREMEN = {
  users: [{ name: 'demo.lead' }, { name: 'demo.foreman' }, { name: 'demo.crew' }],
  guilds: [
    {
      name: 'Demo Grounds',
      owner: 'demo.lead',
      roles: [{ name: 'foremen' }],
      channels: [{ name: 'field' }],
      members: [{ user: 'demo.lead' }, { user: 'demo.foreman', roles: ['foremen'] }, { user: 'demo.crew' }],
    },
  ],
}
const tool = { name: 'setup tool', options: { name: 'pocket scale', kind: 'scale', step: '0.1 g' } }

eachEngine('people on Discord', (place) => {
  test('the role that leads is chosen from the server’s own, and looked at each time', async () => {
    const on = await startCrew(place, { world: FOREMEN })
    const { platform } = on
    const attempt = async (user: string) => textOf(await platform.slash({ ...tool, user }).message())
    expect(await attempt('demo.foreman')).toContain('Only a lead may do this')
    const chosen = { name: 'setup crew', options: { lead_role: 'foremen' } }
    expect(textOf(await platform.slash({ ...chosen, user: 'demo.crew' }).message())).toContain('Only a lead')
    const role = platform.world.guild(undefined).roles.find(({ name }) => name === 'foremen')
    const shown = textOf(await platform.slash({ ...chosen, user: 'demo.lead' }).message())
    expect(shown).toContain(`Role that leads: chosen, its number ends in ${role?.id.slice(-4)}`)
    expect(await attempt('demo.foreman')).toContain('pocket scale is kept')
    const foreman = platform.world.user('demo.foreman')
    platform.world.member(platform.world.guild(undefined), foreman).roles = []
    expect(await attempt('demo.foreman')).toContain('Only a lead may do this')
    expectQuiet(on)
  })

  test('a server that is slow to tell its name is called by it from the next request on', async () => {
    const on = await startCrew(place, { bare: true })
    const { platform } = on
    const NAME = { method: 'GET', route: '/guilds/{guild_id}' }
    platform.faults.delay(NAME, 900)
    const told = platform.nextRequest(NAME)
    const show = { name: 'setup me', user: 'demo.crew', channel: 'field' }
    await platform.slash(show).message()
    const { id } = platform.world.guild(undefined)
    const named = () => on.look(async (_, crew) => ({ key: crew.key, name: crew.name }))
    expect(await named()).toEqual({ key: crewKeyOf(id), name: `Crew ${id.slice(-4)}` })
    await told
    await platform.slash(show).message()
    expect((await named()).name).toBe('Demo Grounds')
    // A stand-in never takes the place of the name once it is known.
    await on.restart()
    platform.faults.serverError(NAME, { times: 4 })
    await platform.slash(show).message()
    expect((await named()).name).toBe('Demo Grounds')
    expectQuiet(on)
  })

  test('a person reads their settings, and chooses the language of their own answers', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const own = { name: 'setup me', user: 'demo.crew', channel: 'field' }
    expect(textOf(await platform.slash(own).message())).toContain('Language: as your messenger says')
    await platform.slash({ ...own, options: { language: 'es' } }).message()
    const refused = await platform.slash({ ...tool, user: 'demo.crew', channel: 'field' }).message()
    expect(textOf(refused)).toContain('Solo un encargado puede hacer esto')
    expectQuiet(on)
  })
})
