/** A named figure of a command's answers. Names are stable: scripts and tables rest on them. */
export interface FactNote {
  /** `half_N` stands for `half_1`, `half_2` and so on. */
  readonly name: string
  readonly says: string
}

/** What the reference tells of a command beyond its options. */
export interface CommandNote {
  /** Lines to type in the practice room, on the demo crew. */
  readonly examples: readonly string[]
  readonly facts: readonly FactNote[]
}

const fact = (name: string, says: string): FactNote => ({ name, says })

const output = fact('output', 'spray on an area')

const recordFact = fact('record', 'number of the record')
const dueDay = fact('due', 'day of the next look')
const onHand = [
  fact('product', 'name'),
  fact('on_hand', 'what is there now'),
  fact('low', 'is it below its mark'),
]

/** How a record stands, as the log, its amendments and the list of records tell it. */
const standing = [
  fact('record', 'number of the record, R1 and on'),
  fact('complete', 'true when nothing is missing'),
  fact('within_label', 'yes, no, or unknown where no entry of the label book was held against it'),
  fact('missing', 'what is missing; empty when nothing is'),
  fact('late', 'true when it was written after the day that its state allows'),
]

/** By the command's name. A command without figures has an empty list. */
export const notes: Readonly<Record<string, CommandNote>> = {
  emergency: { examples: ['/emergency'], facts: [] },
  mix: {
    examples: [
      '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"',
      '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1.3 gal/1000 ft2" in_tank:"0.5 gal" scale:"0.1 g"',
      '/mix product:"Tarnbrask 75 WDG" tank:"1/2" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"',
      '/mix product:"Tarnbrask 75 WDG" ground:"18500 ft2" sprayer:Backpack',
      '/mix rate:"0.5 % v/v" tank:"2 gal"',
    ],
    facts: [
      fact('mix', 'after “poured”: the number under which its log is found'),
      fact(
        'concentrate',
        'product to add, rounded to the tool, in the unit of the rate or of the typed scale',
      ),
      fact('concentrate_exact', 'the same before rounding'),
      fact('concentrate_tool', 'the same as it is measured, in the unit of the tool'),
      fact('tank', 'fill to this mark'),
      fact('area_covered', 'ground that the filling covers; for a job, all of it'),
      fact('rate_applied', 'the rate that the rounded amounts give'),
      fact('rate_on_ground', 'of a percentage or a rate per volume: what it is on the ground'),
      fact('adjuvant', 'adjuvant to add'),
      fact('leftover', 'mix that will be left over'),
      fact('total_concentrate', 'a job: product in all'),
      fact('total_concentrate_exact', 'a job: the same before rounding'),
      fact('total_mix', 'a job: mix in all'),
      fact('loads', 'a job: number of fillings'),
      fact('last_load', 'a job: fill the last one to this mark'),
      fact('last_concentrate', 'a job: product in the last filling'),
      fact('product', 'entry of the label book'),
      fact('label_version', 'version and date of its label, and the revision of the entry'),
      fact('rate_line', 'id of the rate line'),
      fact('left_this_year', 'what is left of the yearly limit before this treatment'),
      fact('next_treatment', 'of a refusal that waiting ends: the first day that is open'),
      fact('order', 'several products: all that goes in, in the order of filling'),
      fact('concentrate_N', 'of the second product and each further one'),
      fact('concentrate_exact_N', 'the same before rounding'),
      fact('rate_applied_N', 'the rate that its rounded amount gives'),
      fact('concentrate_tool_N', 'its amount in the unit of the tool'),
      fact('product_N', 'its entry of the label book'),
      fact('label_version_N', 'version and date of its label, and the revision of the entry'),
      fact('rate_line_N', 'id of its rate line'),
      fact('left_this_year_N', 'what is left of its yearly limit before this treatment'),
      fact('total_concentrate_N', 'what the whole job takes of it'),
      fact('total_concentrate_exact_N', 'the same before rounding'),
      fact('last_concentrate_N', 'what the last load takes of it'),
    ],
  },
  jar: {
    examples: ['/jar product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" output:"2 gal/1000 ft2"'],
    facts: [
      fact('jar', 'size of the jar'),
      fact('jar_water', 'water to begin with'),
      fact('jar_amount', 'of the first product'),
      fact('jar_amount_N', 'of the second product and each further one, adjuvants last'),
      fact('order', 'all that goes in, in the order of filling'),
      fact('seen', 'what showed after the wait'),
    ],
  },
  rate: {
    examples: [
      '/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"',
      '/rate amount:"0.75 lb ai/acre" strength:"6.7 lb ai/gal" to:"pt/acre"',
      '/rate amount:"3 lb/acre" band:"10 in" row:"30 in"',
      '/rate amount:"1 gal covers 4 acres" to:"fl oz/1000 ft2"',
      '/rate output:"25 gal/acre"',
    ],
    facts: [
      fact('converted', 'the rate in the unit wanted'),
      fact('per_field', 'of bands: the rate over the whole ground'),
      fact('sprayed', 'of bands: share of the ground that is sprayed'),
      fact('gallon_covers', 'ground that one gallon of the mix covers'),
      fact('gallon_covers_acres', 'the same in acres'),
    ],
  },
  dilute: {
    examples: [
      '/dilute amount:"100 gal" wanted:"1 %" strength:"4 lb ai/gal"',
      '/dilute amount:"10 gal" wanted:"0.5 %" strength:"50 % ai" form:powder',
      '/dilute amount:"100 gal" wanted:"5 ppm"',
      '/dilute amount:"100 gal" added:"2 lb"',
    ],
    facts: [
      fact('concentrate', 'product to add; of ppm without a strength, active ingredient'),
      fact('carrier', 'water or dry carrier, where both add up to the spray'),
      fact('ppm', 'what the amount added makes'),
    ],
  },
  water: {
    examples: ['/water amount:"100 gal"', '/water calcium:300 magnesium:50 amount:"100 gal"'],
    facts: [
      fact('water_weight', 'weight of the water'),
      fact('sulfate', 'ammonium sulfate per 100 gallons'),
      fact('sulfate_total', 'the same for the amount of water'),
    ],
  },
  card: {
    examples: [
      '/card sprayer:"Hand can"',
      '/card sprayer:"Gun tank" for:"Marl Whitstrop" product:"Fennowick 4 EC"',
    ],
    facts: [
      fact('sprayer', 'whose tank'),
      fact('person', 'whose output'),
      output,
      fact('good_until', 'last day of the card'),
      fact('lines', 'rate lines on the card'),
      fact('left_off', 'products or lines that are not, each with its reason in the text'),
      fact('line_N', 'product of line N; its text is the line as printed'),
      fact('half_N', 'most product of line N in half a tank'),
      fact('gallon_N', 'the same in one gallon'),
      fact('full_N', 'the same in a full tank'),
    ],
  },
  log: {
    examples: [
      '/log',
      '/log mix:1',
      '/log product:"Tarnbrask 75 WDG" amount:"3.2 g" site:"Plimmet Street House" area:"Front lawn" start:7:30',
    ],
    facts: standing,
  },
  'record amend': { examples: ['/record amend record:R1'], facts: standing },
  notices: {
    examples: ['/notices', '/notices site:"Plimmet Street House"'],
    facts: [
      fact('count', 'things that hold now'),
      fact('record', 'of a message: number of the record that it comes from'),
      fact('notice', 'of a message: what is over or to be done'),
      fact('due', 'of a message: when it is over or by when it is to be done'),
      fact('until_NOTICE', 'of the first message: when that one is over'),
      fact('done_at', 'of a task that was marked: when'),
    ],
  },
  'recheck due': {
    examples: ['/recheck due', '/recheck due site:"Plimmet Street House"', '/recheck due overdue:yes'],
    facts: [
      dueDay,
      fact('due_count', 'looks that are due, overdue ones among them'),
      fact('overdue_count', 'looks whose days are over'),
    ],
  },
  'recheck plots': {
    examples: ['/recheck plots record:R12'],
    facts: [recordFact, fact('plots', 'treated plots marked so far'), dueDay],
  },
  'recheck rate': {
    examples: ['/recheck rate record:R12'],
    facts: [
      recordFact,
      fact('percent_control', 'mean of the plots, below zero where they are worse than untreated'),
      fact('injury', 'of the lawn, 9 none to 1 dead'),
      fact('decision', '`done`, `wait`, `allowed`, `hold` or `refusal`'),
      fact('next_treatment', 'first day that is open for a second application'),
      fact('left_this_year', 'what is left of the yearly limit before a second application'),
      dueDay,
    ],
  },
  'recheck history': {
    examples: ['/recheck history record:R12', '/recheck history site:"Plimmet Street House"'],
    facts: [
      recordFact,
      fact('ratings', 'visits that were rated'),
      fact('percent_control', 'at the last of them'),
    ],
  },
  'recheck schedule': {
    examples: [
      '/recheck schedule',
      '/recheck schedule weed:sedge look:first days:"10 to 20"',
      '/recheck schedule work_days:Mon-Sat hours:"7:00 to 16:30" round:"every 14 days from 2026-05-04"',
    ],
    facts: [],
  },
  last: { examples: ['/last', '/last number:3'], facts: [] },
  answers: { examples: ['/answers', '/answers command:mix day:today'], facts: [] },
  records: {
    examples: ['/records', '/records site:"Ospelwick School" from:2026-05-01 complete:no'],
    facts: [
      fact('record', 'number of the newest record that fits'),
      fact('complete', 'whether it holds everything that its state asks'),
      fact('within_label', '`yes`, `no`, or `unknown` when it was never held against the label'),
      fact('missing', 'ids of what it lacks'),
      fact('record_N', 'number of the second record and each further one'),
      fact('complete_N', 'the same of it'),
      fact('within_label_N', 'the same of it'),
      fact('missing_N', 'the same of it'),
    ],
  },
  'record show': {
    examples: ['/record show number:R1'],
    facts: [
      fact('record', 'its number'),
      fact('complete', 'whether it holds everything that its state asks'),
      fact('within_label', '`yes`, `no`, or `unknown` when it was never held against the label'),
      fact('missing', 'ids of what it lacks'),
    ],
  },
  'record export': {
    examples: [
      '/record export for:inspector format:csv from:2026-01-01',
      '/record export for:customer site:"Ospelwick School"',
      '/record export for:treating',
    ],
    facts: [fact('records', 'how many records the file holds')],
  },
  'site show': {
    examples: ['/site show site:"Plimmet Street House"'],
    facts: [fact('site', 'name'), fact('area_N', 'size of an area, by its id')],
  },
  'site list': { examples: ['/site list'], facts: [] },
  'site add': {
    examples: ['/site add'],
    facts: [fact('site', 'name'), fact('area_N', 'size of an area, by its id')],
  },
  'site area': {
    examples: ['/site area site:"Ospelwick School" area:"Parking strip"'],
    facts: [fact('site', 'name'), fact('area_N', 'size of an area, by its id')],
  },
  'site edit': {
    examples: ['/site edit site:"Wrennoch Chapel"', '/site edit site:"Wrennoch Chapel" elevation:"5280 ft"'],
    facts: [fact('site', 'name'), fact('area_N', 'size of an area, by its id')],
  },
  'site retire': { examples: ['/site retire site:"Wrennoch Chapel"'], facts: [] },
  'sprayer show': {
    examples: ['/sprayer show', '/sprayer show sprayer:"Hand can"'],
    facts: [fact('tank', 'what the tank holds')],
  },
  'sprayer add': {
    examples: ['/sprayer add name:"Hand can 2" tank:"2 gal" marks:"0.25 gal" tip:cone'],
    facts: [fact('tank', 'what the tank holds')],
  },
  'sprayer cleaned': { examples: ['/sprayer cleaned sprayer:"Hand can"'], facts: [] },
  'sprayer retire': { examples: ['/sprayer retire sprayer:Boom'], facts: [] },
  'stock show': {
    examples: ['/stock show', '/stock show product:"Tarnbrask 75 WDG"'],
    facts: [
      fact('products', 'how many are written down'),
      fact('low', 'how many are low; of one product: is it'),
      fact('product', 'of one product: name'),
      fact('on_hand', 'of one product: what is there'),
    ],
  },
  'stock add': {
    examples: ['/stock add product:"Tarnbrask 75 WDG" amount:"20 oz" packs:2 lot:"DEMO-7"'],
    facts: onHand,
  },
  'stock count': { examples: ['/stock count product:"Bellstrake 3 L" amount:"1.5 gal"'], facts: onHand },
  'stock low': { examples: ['/stock low product:"Bellstrake 3 L" amount:"1 gal"'], facts: onHand },
  'label show': { examples: ['/label show product:"Tarnbrask 75 WDG"'], facts: [fact('product', 'name')] },
  'label list': { examples: ['/label list'], facts: [] },
  'label add': { examples: ['/label add'], facts: [fact('product', 'name')] },
  'label revise': {
    examples: [
      '/label revise product:"Tarnbrask 75 WDG"',
      '/label revise product:"Tarnbrask 75 WDG" what:waits',
    ],
    facts: [fact('product', 'name')],
  },
  'label confirm': {
    examples: ['/label confirm product:"Yarvendel 50 WG"', '/label confirm all:yes'],
    facts: [fact('product', 'name')],
  },
  'label retire': { examples: ['/label retire product:"Pellimoor 80 WP"'], facts: [] },
  'setup me': { examples: ['/setup me units:metric'], facts: [] },
  'setup crew': { examples: ['/setup crew state:NC calibration_note:60'], facts: [] },
  'setup tool': { examples: ['/setup tool name:"kitchen scale" kind:scale step:"1 g"'], facts: [] },
  'setup person': {
    examples: ['/setup person person:"Hob Stowbrimmer" role:lead license:DEMO-0009 expires:2027-06-30'],
    facts: [],
  },
  rained: {
    examples: ['/rained record:R1 hours:2', '/rained site:"Plimmet Street House" at:"3:30 pm"'],
    facts: [
      fact('record', 'number of the record'),
      fact('rain_after', 'hours from the end of the job to the rain'),
      fact('rain_free', 'inside or outside the label’s rain-free time, or unsaid'),
      fact('due', 'day of the next look, where it was moved'),
    ],
  },
  summary: {
    examples: ['/summary', '/summary days:30'],
    facts: [
      fact('jobs', 'records of these days'),
      fact('area', 'ground treated'),
      fact('incomplete', 'records that lack something, of all days'),
      fact('late', 'records of these days that were written late'),
      fact('drafts', 'logs that are not finished'),
      fact('incidents', 'that are open'),
      fact('low', 'products below their mark'),
      fact('overdue', 'tasks that nobody has marked in time'),
      fact('head', 'place and hash of the newest link of the records'),
    ],
  },
  'setup notices': {
    examples: ['/setup notices mowing:"Hob Stowbrimmer" summary:07:00'],
    facts: [],
  },
  area: {
    examples: [
      '/area shape:circle circumference:"800 ft"',
      '/area length:"100 ft" width:"62 ft" minus:"house 30x42 ft; circle 6 ft"',
    ],
    facts: [
      fact('area', 'the ground'),
      fact('area_also', 'the same in the other unit'),
      fact('taken_out', 'beds and buildings that were taken off'),
    ],
  },
  calibrate: {
    examples: [
      '/calibrate method:hand ground:"250 ft2" used:"0.5 gal"',
      '/calibrate method:ounce spacing:"20 in"',
      '/calibrate method:boom flow:"0.4 gal/min" speed:"4 mph" spacing:"20 in"',
      '/calibrate method:speed distance:"200 ft" time:"34 s"',
    ],
    facts: [
      output,
      fact('output_also', 'the same in the other unit'),
      fact('course_length', 'how far to drive for the ounce method'),
      fact('speed', 'how fast'),
      fact('flow', 'of one nozzle'),
      fact('pressure', 'for another flow'),
      fact('nozzle_average', 'mean of the nozzles'),
      fact('nozzle_low', 'lowest nozzle that still passes'),
      fact('nozzle_high', 'highest nozzle that still passes'),
      fact('product_rate', 'product on an area'),
      fact('half_rate', 'half of it, for two passes'),
      fact('spreader_rate', 'what the spreader puts out'),
      fact('per_spot', 'spray on one spot'),
      fact('spot_output', 'what that is on the ground of a spot'),
      fact('spread', 'how far apart the runs lie, in percent of their mean'),
      fact('off_target', 'how far the spreader is from its target'),
      fact('swath', 'width that the spreader covers evenly'),
      fact('kept', 'of spots or a spreader: the figure that was kept'),
    ],
  },
  conditions: {
    examples: ['/conditions temperature:"88 F" humidity:60 wind:"6 mph"'],
    facts: [
      fact('wet_bulb', 'wet-bulb temperature'),
      fact('delta_t', 'air less wet-bulb temperature'),
      fact('vpd', 'vapor pressure deficit'),
      fact('heat_index', 'how hot it feels to people'),
      fact('heat_band', '`lower`, `moderate`, `high` or `extreme`, with what is worn in mind'),
    ],
  },
  degrees: {
    examples: [
      '/degrees temperatures:"2026-04-01 74 52; 2026-04-02 58 40; 2026-04-03 70 50" method:average base:"50 F"',
    ],
    facts: [
      fact('degree_days', 'the total, in degrees of the base times days'),
      fact('method', '`average`, `capped` or `sine`'),
      fact('base', 'where counting begins'),
      fact('first_day', 'first day that is counted'),
      fact('last_day', 'last day that is counted'),
      fact('days_counted', 'days with temperatures'),
      fact('days_missing', 'days between them without any'),
    ],
  },
  key: {
    examples: ['/key turf:"tall fescue"'],
    facts: [
      fact('result', '`weed`, `own-turf` or `hold`'),
      fact('taxon', 'scientific name'),
      fact('group', 'scientific names of a group that the key does not split'),
      fact('remaining', 'plants that are still possible'),
      fact('remaining_count', 'how many they are'),
      fact('question', 'id of the character that is asked for'),
      fact('walk', 'number under which the walk is kept'),
      fact('due', 'when the reminder comes'),
      fact('products', 'entries of the label book that list this weed on this turf'),
    ],
  },
}
