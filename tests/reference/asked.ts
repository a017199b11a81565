/** Rows of the reference set that a command reaches, as a crew types them in English and in the Spanish of US crews. */
export interface Asked {
  /** Id of the row. */
  readonly id: string
  readonly en: string
  readonly es: string
  /** The fact of the reply that is the row's figure. */
  readonly fact: string
}

type RateCase = readonly [id: string, amount: string, to: string, monto: string, a: string]

const rates: readonly RateCase[] = [
  ['SM-06', '1.5 gal/1000 ft2', 'gal/acre', '1,5 galones por mil pies cuadrados', 'galones por acre'],
  ['SM-12', '40 gal/acre', 'gal/1000 ft2', '40 galones por acre', 'galones por mil pies cuadrados'],
  ['SM-13', '3.6 pt/acre', 'fl oz/1000 ft2', '3,6 pintas por acre', 'onzas líquidas por mil pies cuadrados'],
  ['SM-80', '1 oz wt/ft2', 'lb/acre', '1 onza de peso por pie cuadrado', 'libras por acre'],
  ['SM-81', '1 oz wt/100 ft2', 'lb/acre', '1 onza de peso por 100 pies cuadrados', 'libras por acre'],
  ['SM-82', '1 gal/acre', 'gal/1000 ft2', '1 galón por acre', 'galones por mil pies cuadrados'],
  ['gal/1000 ft2 in L/ha', '1 gal/1000 ft2', 'L/ha', '1 galón por mil pies cuadrados', 'litros por hectárea'],
  ['gal/acre in L/ha', '1 gal/acre', 'L/ha', '1 galón por acre', 'litros por hectárea'],
  ['fl oz/acre in mL/ha', '1 fl oz/acre', 'mL/ha', '1 onza líquida por acre', 'mililitros por hectárea'],
  [
    'fl oz/1000 ft2 in mL/100 m2',
    '1 fl oz/1000 ft2',
    'mL/100 m2',
    '1 onza líquida por mil pies cuadrados',
    'mililitros por 100 m2',
  ],
  [
    'oz wt/1000 ft2 in lb/acre',
    '1 oz wt/1000 ft2',
    'lb/acre',
    '1 onza de peso por mil pies cuadrados',
    'libras por acre',
  ],
  ['oz wt/acre in g/ha', '1 oz wt/acre', 'g/ha', '1 onza de peso por acre', 'gramos por hectárea'],
  ['lb/1000 ft2 in kg/ha', '1 lb/1000 ft2', 'kg/ha', '1 libra por mil pies cuadrados', 'kilos por hectárea'],
  ['lb/acre in kg/ha', '1 lb/acre', 'kg/ha', '1 libra por acre', 'kilos por hectárea'],
]

type StrengthCase = readonly [...RateCase, strength: string]

/** From active ingredient to product. What the product holds is copied from the label, which is in English. */
const strengths: readonly StrengthCase[] = [
  ['SM-20', '10 lb ai/acre', 'lb/acre', '10 lb ai/acre', 'libras por acre', '5 % ai'],
  ['SM-25', '3 lb ai/acre', 'lb/acre', '3 lb ai/acre', 'libras por acre', '80 % ai'],
  ['SM-31', '3 lb ai/acre', 'pt/acre', '3 lb ai/acre', 'pintas por acre', '8 lb ai/gal'],
  ['SM-31 in quarts', '3 lb ai/acre', 'qt/acre', '3 lb ai/acre', 'cuartos por acre', '8 lb ai/gal'],
  ['SM-31 in gallons', '3 lb ai/acre', 'gal/acre', '3 lb ai/acre', 'galones por acre', '8 lb ai/gal'],
  ['SM-39', '1 lb ai/acre', 'pt/acre', '1 lb ai/acre', 'pintas por acre', '4 lb ai/gal'],
  ['SM-40', '1.5 lb ai/acre', 'pt/acre', '1,5 lb ai/acre', 'pintas por acre', '3.34 lb ai/gal'],
  ['SM-41', '0.25 lb ai/acre', 'pt/acre', '0,25 lb ai/acre', 'pintas por acre', '2.64 lb ai/gal'],
  [
    'SM-42',
    '1 lb ai/acre',
    'mL/1000 ft2',
    '1 lb ai/acre',
    'mililitros por mil pies cuadrados',
    '4 lb ai/gal',
  ],
  ['SM-43', '1 lb ai/acre', 'g/1000 ft2', '1 lb ai/acre', 'gramos por mil pies cuadrados', '50 % ai'],
  [
    'SM-44',
    '1 lb ai/acre',
    'mL/1000 ft2',
    '1 lb ai/acre',
    'mililitros por mil pies cuadrados',
    '1 lb ai/gal',
  ],
]

type MixCase = readonly [
  id: string,
  rate: string,
  tank: string,
  output: string,
  dosis: string,
  tanque: string,
  gasto: string,
]

/** How much goes into the tank. */
const mixes: readonly MixCase[] = [
  ['SM-02', '1 qt/acre', '1 gal', '40 gal/acre', '1 cuarto por acre', '1 galón', '40 galones por acre'],
  [
    'SM-05',
    '32 fl oz/acre',
    '20 gal',
    '20 gal/acre',
    '32 onzas líquidas por acre',
    '20 galones',
    '20 galones por acre',
  ],
  ['SM-07', '3 pt/acre', '1 gal', '65 gal/acre', '3 pintas por acre', '1 galón', '65 galones por acre'],
  [
    'SM-61',
    '8 fl oz/acre',
    '1 gal',
    '7.5 gal/acre',
    '8 onzas líquidas por acre',
    '1 galón',
    '7,5 galones por acre',
  ],
  [
    'SM-62',
    '8 fl oz/acre',
    '3 gal',
    '7.5 gal/acre',
    '8 onzas líquidas por acre',
    '3 galones',
    '7,5 galones por acre',
  ],
]

/** A rate in the spray needs no output. */
const inTanks: readonly (readonly [id: string, rate: string, tank: string, dosis: string, tanque: string])[] =
  [
    ['SM-21', '2 lb/100 gal', '300 gal', '2 libras por 100 galones', '300 galones'],
    ['SM-22', '2 lb/100 gal', '20 gal', '2 libras por 100 galones', '20 galones'],
    ['SM-23', '2 pt/100 gal', '20 gal', '2 pintas por 100 galones', '20 galones'],
    ['SM-53', '3 % v/v', '3 gal', '3 % v/v', '3 galones'],
  ]

type DayCase = readonly [id: string, day: string, how: string]

/** One day of degree days: figures and a method, which are the same word for word. */
const days: readonly DayCase[] = [
  ['SM-48', '74 52', 'method:average base:"50 F"'],
  ['SM-50', '80 60', 'method:capped base:"50 F" cap:"86 F"'],
  ['SM-51', '60 40', 'method:capped base:"50 F" cap:"86 F"'],
  ['SM-51 by average', '60 40', 'method:average base:"50 F"'],
  ['SM-52', '90 70', 'method:capped base:"50 F" cap:"86 F"'],
  ['SM-52 by average', '90 70', 'method:average base:"50 F"'],
  ['SM-86', '70 50', 'method:average base:"50 F"'],
  ['degree days 67/46', '67 46', 'method:average base:"50 F"'],
]

const others: readonly Asked[] = [
  {
    id: 'SM-24',
    en: '/rate amount:"3 lb/acre" band:"10 in" row:"30 in"',
    es: '/rate amount:"3 libras por acre" band:"10 pulgadas" row:"30 pulgadas"',
    fact: 'per_field',
  },
  {
    id: 'SM-18',
    en: '/dilute amount:"10 lb" wanted:"5 %" strength:"80 % ai" form:powder',
    es: '/dilute amount:"10 libras" wanted:"5 %" strength:"80 % ai" form:powder',
    fact: 'concentrate',
  },
  {
    id: 'SM-19',
    en: '/dilute amount:"5 gal" wanted:"2 %" strength:"80 % ai" form:powder',
    es: '/dilute amount:"5 galones" wanted:"2 %" strength:"80 % ai" form:powder',
    fact: 'concentrate',
  },
  {
    id: 'SM-04',
    en: '/calibrate method:boomless flow:"480 fl oz/min" width:"222 in" speed:"5 mph" unit:"gal/acre"',
    es: '/calibrate method:boomless flow:"480 onzas líquidas por minuto" width:"222 pulgadas" speed:"5 millas por hora" unit:"galones por acre"',
    fact: 'output',
  },
  {
    id: 'SM-27',
    en: '/calibrate method:boom flow:"1.5 gal/min" spacing:"30 in" output:"30 gal/acre"',
    es: '/calibrate method:boom flow:"1,5 galones por minuto" spacing:"30 pulgadas" output:"30 galones por acre"',
    fact: 'speed',
  },
  {
    id: 'SM-65',
    en: '/calibrate method:boom flow:"0.15 gal/min" spacing:"48 in" speed:"5 mph" unit:"gal/acre"',
    es: '/calibrate method:boom flow:"0,15 galones por minuto" spacing:"48 pulgadas" speed:"5 millas por hora" unit:"galones por acre"',
    fact: 'output',
  },
  {
    id: 'SM-56',
    en: '/dilute amount:"100 gal" wanted:"1 %" strength:"4 lb ai/gal"',
    es: '/dilute amount:"100 galones" wanted:"1 %" strength:"4 lb ai/gal"',
    fact: 'concentrate',
  },
  {
    id: 'SM-57',
    en: '/dilute amount:"100 gal" wanted:"0.25 %" strength:"1 lb ai/gal"',
    es: '/dilute amount:"100 galones" wanted:"0,25 %" strength:"1 lb ai/gal"',
    fact: 'concentrate',
  },
  {
    id: 'SM-66',
    en: '/calibrate method:refill used:"12 gal" distance:"660 ft" width:"10 ft" unit:"gal/acre"',
    es: '/calibrate method:refill used:"12 galones" distance:"660 pies" width:"10 pies" unit:"galones por acre"',
    fact: 'output',
  },
  {
    id: 'SM-84',
    en: '/calibrate method:refill used:"4 gal" distance:"436 ft" width:"10 ft" unit:"gal/acre"',
    es: '/calibrate method:refill used:"4 galones" distance:"436 pies" width:"10 pies" unit:"galones por acre"',
    fact: 'output',
  },
  {
    id: 'SM-89',
    en: '/calibrate method:speed distance:"11 ft" time:"3 s"',
    es: '/calibrate method:speed distance:"11 pies" time:"3 segundos"',
    fact: 'speed',
  },
  {
    id: 'SM-45 in acres',
    en: '/area length:"260 ft" width:"408 ft" unit:acre',
    es: '/area length:"260 pies" width:"408 pies" unit:acres',
    fact: 'area',
  },
  {
    id: 'SM-46 in acres',
    en: '/area shape:triangle base:"300 ft" height:"500 ft" unit:acre',
    es: '/area shape:triangle base:"300 pies" height:"500 pies" unit:acres',
    fact: 'area',
  },
]

export const ASKED: readonly Asked[] = [
  ...rates.map(([id, amount, to, monto, a]) => ({
    id,
    en: `/rate amount:"${amount}" to:"${to}"`,
    es: `/rate amount:"${monto}" to:"${a}"`,
    fact: 'converted',
  })),
  ...strengths.map(([id, amount, to, monto, a, strength]) => ({
    id,
    en: `/rate amount:"${amount}" to:"${to}" strength:"${strength}"`,
    es: `/rate amount:"${monto}" to:"${a}" strength:"${strength}"`,
    fact: 'converted',
  })),
  ...mixes.map(([id, rate, tank, output, dosis, tanque, gasto]) => ({
    id,
    en: `/mix rate:"${rate}" tank:"${tank}" output:"${output}"`,
    es: `/mix rate:"${dosis}" tank:"${tanque}" output:"${gasto}"`,
    fact: 'concentrate_exact',
  })),
  ...inTanks.map(([id, rate, tank, dosis, tanque]) => ({
    id,
    en: `/mix rate:"${rate}" tank:"${tank}"`,
    es: `/mix rate:"${dosis}" tank:"${tanque}"`,
    fact: 'concentrate_exact',
  })),
  ...days.map(([id, day, how]) => {
    const line = `/degrees temperatures:"2026-04-01 ${day}" ${how}`
    return { id, en: line, es: line, fact: 'degree_days' }
  }),
  ...others,
]
