import { expect, test } from 'vitest'
import { openRoom } from '../commands/open-room.ts'
import { keepApplication } from './keep-application.ts'

/** Treated on Monday, 4 May, on 600 ft²; one plot and an untreated spot; everything typed and read in Spanish. */
async function parcela(rate: string) {
  const room = await openRoom()
  await room.store((store) =>
    keepApplication(store, {
      site: 'Ospelwick School',
      area: 'Entrance lawn',
      on: '2026-05-04',
      ft2: '600',
      rate,
      parts: { sprayer: 'Hand can' },
    }),
  )
  const teo = room.as('teo', 'es')
  await teo('/recheck plots record:R1', '= flag:1', '> 1', '= flag:U')
  return { room, teo }
}

test('segunda aplicación permitida, con su día, su porqué y un botón a la mezcla', async () => {
  const { teo } = await parcela('0.087')
  await teo('+ 28 days', '/recheck rate record:R1', '= control:50 untreated:0')
  const said = await teo('+ 14 days', '/recheck rate record:R1', '= control:54 untreated:0')
  expect(said.screen.slice(0, 2)).toEqual([
    'heads-up: 54 % de control: segunda aplicación permitida desde el lun, 15 de jun de 2026',
    'Resultado: malo; comparado con el pedazo sin aplicar (Abbott).',
  ])
  expect(said.lines).toContain('Ya no cambia: 4 puntos desde la visita anterior.')
  expect(said.choices[0]).toBe('Mezclar otra vez')
})

test('ya quedó', async () => {
  const { teo } = await parcela('0.113')
  const said = await teo('+ 42 days', '/recheck rate record:R1', '= control:96 untreated:0')
  expect(said.screen.slice(0, 2)).toEqual([
    'answer: 96 % de control: ya quedó',
    'Resultado: muy bueno a excelente; comparado con el pedazo sin aplicar (Abbott).',
  ])
})

test('no: el límite del año, con la línea de la etiqueta y lo que queda', async () => {
  const { teo } = await parcela('0.113')
  await teo('+ 42 days', '/recheck rate record:R1', '= control:50 untreated:0')
  const said = await teo('+ 14 days', '/recheck rate record:R1', '= control:52 untreated:0')
  expect(said.screen[0]).toBe('refusal: 52 % de control: no va otra aplicación')
  expect(said.lines).toEqual(
    expect.arrayContaining([
      'No: quedan 0.087 oz peso/1000 pies² de 0.2 oz peso/1000 pies² al año en este terreno. Esto es 0.113 oz peso/1000 pies².',
      'En el año quedan a lo más 0.087 oz peso/1000 pies²: 1.4 g en 600 pies². Es menos que la dosis más baja de la etiqueta.',
    ]),
  )
})

test('no se puede juzgar: vuelve en una semana, o el día que se escoja', async () => {
  const { teo } = await parcela('0.087')
  const said = await teo('+ 42 days', '/recheck rate record:R1', '= control:50 untreated:40')
  expect(said.screen[0]).toBe('heads-up: Hoy no se puede juzgar')
  expect(said.lines).toContain(
    'Revise otra vez el lun, 22 de jun de 2026, porque hoy no se puede juzgar; o escoja otro día.',
  )
  expect(said.choices[0]).toBe('Otro día')
})

test('el calendario del encargado: se cambia y se lee en español', async () => {
  const lead = (await openRoom()).as('odalys', 'es')
  const said = await lead(
    '/recheck schedule weed:sedge look:first days:"10 a 20" work_days:lun-sab hours:"6:30 a 15:00" days_off:"2026-07-03" round:"cada 14 días desde 2026-05-04" done:95',
  )
  expect(said.title).toBe('Cambiado. Las revisiones ya planeadas se quedan.')
  expect(said.lines).toEqual(
    expect.arrayContaining([
      'Coquillos, días: primeras señales 10 a 20, calificar 28 a 34 y decidir 42 a 49. Se juzga desde el día 28.',
      'Los mensajes llegan lun, mar, mié, jue, vie y sáb, de 06:30 a 15:00.',
      'Vuelta: cada 14 días desde el lun, 4 de may de 2026',
      'Ya quedó: desde 95 % de control. Si el pasto está peor que el paso 6, la segunda aplicación espera.',
    ]),
  )
})
