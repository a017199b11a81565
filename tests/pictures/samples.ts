/** Data of one picture of every kind. Places, people and figures are invented. */
export const samples: readonly (readonly [name: string, data: unknown])[] = [
  [
    'site-card',
    {
      name: 'Demo: Larkspur Court <3 & "Sons"',
      address: '12 Invented Way, Sampleton',
      areas: [
        { name: 'Front lawn', squareFeet: 6000, turfs: ['centipedegrass'] },
        {
          name: 'Back lawn behind the long hedge',
          squareFeet: '18500.5',
          turfs: ['tall fescue', 'perennial ryegrass'],
        },
        { name: 'Side strip', squareFeet: 420, turfs: [] },
      ],
      mind: ['Well by the north fence', 'Two dogs, gate stays shut'],
    },
  ],
  [
    'photo-sheet',
    {
      title: 'Photos: Demo: Larkspur Court, front lawn, R1',
      photos: [
        { blob: 'none', caption: 'Plot 1: Mon, May 4, 2026' },
        { blob: 'none', caption: 'Day 14: Mon, May 18, 2026' },
        { blob: 'none', caption: 'Day 28: Mon, Jun 1, 2026' },
      ],
    },
  ],
  [
    'tank-fill',
    {
      title: 'Demo mix for the 2 gal can',
      amount: '3.6 g',
      product: 'Demo Dry A',
      unit: 'gal',
      full: '2',
      fill: '1.5',
      inTank: '0.5',
      mark: '0.25',
      order: ['Fill to 1 gal', 'Add 3.6 g, shake', 'Fill to the 1.5 gal mark'],
    },
  ],
  [
    'area-shape',
    {
      title: 'Demo: front lawn without the bed',
      area: '4,120 ft²',
      outlines: [
        {
          points: [
            [0, 0],
            [80, 0],
            [80, 40],
            [50, 40],
            [50, 60],
            [0, 60],
          ],
          lengths: ['80 ft', '40 ft', '30 ft', '20 ft', '50 ft', '60 ft'],
        },
        {
          points: [
            [10, 10],
            [26, 10],
            [26, 30],
            [10, 30],
          ],
          minus: true,
          name: 'bed',
        },
      ],
    },
  ],
  [
    'trend',
    {
      title: 'Demo: output of the backpack sprayer',
      unit: 'gal/1000 ft2',
      series: [
        {
          name: 'Pat, gray tip',
          points: [
            { day: '2026-03-02', value: '1.02' },
            { day: '2026-04-06', value: '1.1' },
            { day: '2026-05-18', value: '1.31' },
          ],
        },
        {
          name: 'Sam, gray tip',
          points: [
            { day: '2026-03-02', value: '1.4' },
            { day: '2026-05-18', value: '1.44' },
          ],
        },
      ],
      level: { value: '1', text: 'label: 1 or more' },
    },
  ],
  [
    'truck-card',
    {
      title: 'Demo: Hand can, Pat',
      about: '1 gal/1000 ft² measured. Made May 4, 2026.',
      until: 'Good until Jul 4, 2026. Throw it away after that day.',
      page: '1 of 2',
      columns: ['Half: 1 gal', 'Full: 2 gal'],
      rows: [
        {
          product: 'Demo Dry A',
          signal: 'CAUTION',
          line: 'Invented weeds in listed turf: 0.113 oz per 1,000 sq ft.',
          rate: '0.113 oz wt/1000 ft²',
          label: 'Label A-1, checked until Jul 4, 2026',
          notes: ['With an invented surfactant, 0.25 % v/v'],
          cells: [
            { amount: '3.2 g', beside: 'and 9 mL' },
            { amount: '6.4 g', beside: 'and 18.5 mL' },
          ],
        },
      ],
      leftOff: ['Not on the card: Demo Dry B. A lead looks first.'],
      warnings: ['The label wins.', 'Demo data'],
    },
  ],
  [
    'key-question',
    {
      character: 'ligule_type',
      question: 'Bend a blade back from the stem. What stands up at the bend?',
      states: [
        { id: 'membrane', text: 'a thin clear skin' },
        { id: 'membrane-fringed', text: 'a low skin with hairs on its rim' },
        { id: 'hairs', text: 'only a row of hairs' },
        { id: 'absent', text: 'nothing at all' },
      ],
    },
  ],
  ['key-state', { character: 'seedhead', state: 'pair-plus', text: 'two branches and one more below' }],
  [
    'key-compare',
    {
      title: 'These two pass for each other',
      sides: [
        {
          name: 'Centipedegrass',
          scientific: 'Eremochloa ophiuroides',
          figures: [
            { character: 'seedhead', state: 'raceme-single', text: 'one thin head' },
            { character: 'tip', state: 'pointed', text: 'often pointed' },
          ],
        },
        {
          name: 'Common carpetgrass',
          scientific: 'Axonopus fissifolius',
          figures: [
            { character: 'seedhead', state: 'pair-plus', text: 'a pair with usually one more below' },
          ],
        },
      ],
      tell: 'Seed head first. Without one, hold.',
    },
  ],
  [
    'control-chart',
    {
      title: 'Demo: front strip, yellow nutsedge',
      measure: 'control',
      plots: [
        {
          name: 'Flag 3',
          points: [
            { day: '2026-05-18', value: '10' },
            { day: '2026-06-01', value: '62.5' },
            { day: '2026-06-15', value: '75' },
          ],
        },
        {
          name: 'Flag 4, by the gate',
          points: [
            { day: '2026-05-18', value: '-12.5' },
            { day: '2026-06-01', value: '50' },
            { day: '2026-06-15', value: '70' },
          ],
        },
      ],
      untreated: [
        { day: '2026-05-18', value: '0' },
        { day: '2026-06-15', value: '5' },
      ],
      applications: ['2026-05-04', '2026-06-08'],
      rain: ['2026-05-09', '2026-05-10', '2026-05-29'],
    },
  ],
  ['rating-scale', { title: 'How much of the weed is dead?', steps: [0, 25, 50, 75, 90, 100] }],
]
