/**
 * Published descriptions as walks: what a source says of a plant, typed as a crew would, in a lawn where it is met.
 * `must`: `name` it is identified; `right` it is identified or held, never called anything else; `own` the lawn's own
 * grass is recognized; `not-weed` the lawn's own grass may be held but is never called a weed.
 */
export type PublishedCase = {
  readonly plant: string
  readonly lawn: string
  readonly observed: string
  readonly must: 'name' | 'right' | 'own' | 'not-weed'
  readonly source: string
}

const MSU = 'Michigan State University Extension, weed pages, canr.msu.edu'
const UMASS = 'University of Massachusetts Extension, weed herbarium'
const MU = 'University of Missouri Extension IPM1024, Identifying grass seedlings, 2010'
const NZ = 'Flora of New Zealand vol. V, 2000, Landcare Research'
const FNA = 'Flora of North America vol. 25, 2003'
const GC = 'Gleason and Cronquist, Manual of vascular plants, 1991, New York Botanical Garden'
const RANG = 'Rangachari and Tadulinga, Handbook of some south Indian grasses, 1921'
const UC = 'University of California IPM, perennial weeds, PMG C105'
const HORTV = 'Horticultural Flora of South-eastern Australia vol. 5, 2005'
const CLEMSON = 'Clemson University, weed biology pages'

export const PUBLISHED: readonly PublishedCase[] = [
  {
    plant: 'crab-large',
    lawn: 'kbg',
    observed:
      'lifecycle=summer annual; habit=prostrate; hairs=blade, sheath; vernation=rolled; ligule=membranous; seed head=finger-like; rooting=yes',
    must: 'name',
    source: MSU,
  },
  {
    plant: 'crab-large',
    lawn: 'bermuda',
    observed:
      'habit=prostrate; roots at nodes=yes; hairs=blade, sheath; vernation=rolled; ligule=membranous; sheath=flattened; seedhead=fingers; branches=4-10',
    must: 'right',
    source: UMASS,
  },
  {
    plant: 'crab-large',
    lawn: 'tall-fescue',
    observed:
      'habit=prostrate; hairs=blade, stem; blade 5-10 mm; no auricles; ligule=membrane; ligule length=0.5-2; rooting=yes',
    must: 'right',
    source: MU,
  },
  {
    plant: 'crab-large',
    lawn: 'zoysia-coarse',
    observed:
      'lifecycle=summer annual; habit=prostrate; roots=fibrous; hairs=blade, sheath; ligule=membranous; seedhead=fingers; branches=4-6',
    must: 'right',
    source: CLEMSON,
  },
  {
    plant: 'crab-large',
    lawn: 'perennial-rye',
    observed:
      'lifecycle=annual; habit=prostrate; rooting=yes; blade 4-10 mm; hairs=sheath; ligule=membranous; ligule 2-3 mm; seedhead=fingers; branches=2-10',
    must: 'right',
    source: 'Kansas State University, grass descriptions, Digitaria sanguinalis',
  },
  {
    plant: 'goosegrass',
    lawn: 'bermuda',
    observed:
      'vernation=folded; blade width=1/4 inch; tip=pointed; ligule=membranous; auricles=none; base=white; sheath=flattened; seedhead=fingers; roots=fibrous',
    must: 'name',
    source: 'Fech and Gaussoin (University of Nebraska), turf trade magazine, Goosegrass control',
  },
  {
    plant: 'goosegrass',
    lawn: 'kbg',
    observed:
      'habit=bunch; blade 3-8 mm; sheath=flattened; stem=flattened; hairs=sheath; seedhead=fingers; branches=2-10; base=silvery',
    must: 'right',
    source: 'Kansas State University, grass descriptions, Eleusine indica',
  },
  {
    plant: 'crowfoot',
    lawn: 'bahia',
    observed:
      'lifecycle=annual; habit=prostrate; hairs=margin; blade 2-6 mm; seedhead=fingers; rooting=yes; ligule=membrane-fringed',
    must: 'right',
    source: 'FAO, weed list, Dactyloctenium aegyptium; Clemson University for ligule and rooting',
  },
  {
    plant: 'dallisgrass',
    lawn: 'bermuda',
    observed:
      'life cycle=perennial; habit=clump; hairs=long-base; vernation=rolled; auricles=none; ligule=membranous; sheath=flattened; seedhead=spikes along the stem; branches=3-7; roots=short rhizomes',
    must: 'name',
    source: UMASS,
  },
  {
    plant: 'dallisgrass',
    lawn: 'tall-fescue',
    observed:
      'season=warm; habit=clump; base=red; ligule=membranous; seedhead=ladder; branches=3-5; life cycle=perennial',
    must: 'right',
    source: 'Missouri State University, turf course pages, dallisgrass',
  },
  {
    plant: 'signalgrass',
    lawn: 'bermuda',
    observed:
      'habit=prostrate; stem=round; hairs=sheath, margin; tip=pointed; ligule=membrane-fringed; seedhead=ladder; branches=2-5',
    must: 'right',
    source: 'Auburn University, turfgrass management, broadleaf signalgrass',
  },
  {
    plant: 'signalgrass',
    lawn: 'st-augustine',
    observed:
      'life cycle=summer annual; hairs=sheath; ligule=membrane-fringed; special=crease near tip; rooting=yes; seedhead=ladder; vernation=rolled',
    must: 'right',
    source: 'Mississippi State University Extension, weed of the week, 2012',
  },
  {
    plant: 'kikuyu',
    lawn: 'tall-fescue',
    observed:
      'life cycle=perennial; habit=mat, stolons, rhizomes; color=yellow-green; hairs=blade, sheath; vernation=folded; ligule=hairs; no auricles; seedhead=hidden',
    must: 'name',
    source: 'New Zealand Plant Conservation Network, Cenchrus clandestinus',
  },
  {
    plant: 'kikuyu',
    lawn: 'kikuyu',
    observed:
      'habit=mat, stolons, rhizomes; vernation=folded; blade 1-7 mm; tip=blunt; ligule=hairs; seedhead=hidden',
    must: 'own',
    source: 'Plants of Western New South Wales, 1981, p. 128',
  },
  {
    plant: 'torpedograss',
    lawn: 'centipede',
    observed:
      'life cycle=perennial; habit=rhizomes; feel=stiff; color=blue-green; ligule=membrane-fringed; node_hairs=no; tip=pointed; hairs=margin; seedhead=panicle-narrow',
    must: 'right',
    source: RANG,
  },
  {
    plant: 'torpedograss',
    lawn: 'st-augustine',
    observed:
      'habit=rhizomes; special=torpedo-tip; blade 5 mm; surface=waxy; ligule=membrane-fringed; seedhead=panicle-open',
    must: 'name',
    source: 'Center for Invasive Species (University of Georgia), Panicum repens',
  },
  {
    plant: 'zoysia-coarse',
    lawn: 'zoysia-coarse',
    observed:
      'habit=stolons, mat; feel=stiff; blade 2-4 mm; tip=pointed; hairs=blade; seedhead=raceme-single',
    must: 'not-weed',
    source: 'Flora of China vol. 22, Zoysia japonica',
  },
  {
    plant: 'zoysia-coarse',
    lawn: 'bermuda',
    observed:
      'habit=rhizomes; feel=stiff; blade 2-4 mm; ligule=hairs; vernation=rolled; hairs=collar; seedhead=raceme-single',
    must: 'right',
    source: `${FNA}, Zoysia; Flora of China vol. 22`,
  },
  {
    plant: 'bermuda',
    lawn: 'tall-fescue',
    observed:
      'roots=rhizomes; habit=stolons, rhizomes; sheath margin=open; collar=hairy; blade 1.5-3 mm; ligule=hairs; seedhead=fingers; branches=4-5',
    must: 'name',
    source: 'Electronic Atlas of the Flora of British Columbia, Cynodon dactylon',
  },
  {
    plant: 'bermuda',
    lawn: 'kbg',
    observed:
      'habit=mat, stolons, rhizomes; ligule=hairs; collar=hairy; blade 1-3 mm; seedhead=fingers; branches=4-6; color=gray-green',
    must: 'name',
    source: NZ,
  },
  {
    plant: 'bermuda',
    lawn: 'bermuda',
    observed:
      'habit=stolons, rhizomes, mat; hairs=collar; ligule=hairs; feel=soft; tip=pointed; color=gray-green; seedhead=fingers',
    must: 'not-weed',
    source: RANG,
  },
  {
    plant: 'carpet-common',
    lawn: 'centipede',
    observed:
      'habit=stolons, mat; sheath=flattened; ligule 0.2-0.3 mm; blade 2-7 mm; hairs=long-base; tip=blunt; seedhead=pair-plus; branches=2-3; node_hairs=no',
    must: 'right',
    source: NZ,
  },
  {
    plant: 'carpet-tropical',
    lawn: 'st-augustine',
    observed:
      'habit=stolons; nodes=hairy; sheath=flattened; hairs=sheath, margin; blade 8 mm; midrib=white; seedhead=pair-plus; branches=3',
    must: 'name',
    source: 'Smithsonian, Flora of the Hawaiian Islands, Axonopus compressus',
  },
  {
    plant: 'carpet-tropical',
    lawn: 'centipede',
    observed:
      'habit=stolons; stem=flattened; nodes=hairy; sheath=flattened; hairs=collar, margin; blade 6-12 mm; seedhead=pair-plus; branches=2-5',
    must: 'name',
    source: 'Croat, Flora of Barro Colorado Island, 1978, Axonopus compressus',
  },
  {
    plant: 'st-augustine',
    lawn: 'st-augustine',
    observed:
      'habit=stolons; sheath=flattened; vernation=folded; blade 4-10 mm; tip=blunt; ligule 0.5 mm; seedhead=spike-thick',
    must: 'own',
    source: 'Flora of China vol. 22, Stenotaphrum secundatum',
  },
  {
    plant: 'st-augustine',
    lawn: 'centipede',
    observed:
      'habit=stolons; leaves=opposite; tip=blunt; blade 8 mm; seedhead=thick spike; special=sunken seeds',
    must: 'right',
    source: 'Clemson Home and Garden Information Center, centipedegrass and St. Augustinegrass',
  },
  {
    plant: 'centipede',
    lawn: 'centipede',
    observed:
      'habit=mat, stolons; blade 2-4 mm; sheath=flattened; tip=blunt; hairs=none; seedhead=raceme-single; ligule 0.2-0.5 mm',
    must: 'own',
    source: 'Flora of China vol. 22, Eremochloa ophiuroides',
  },
  {
    plant: 'centipede',
    lawn: 'st-augustine',
    observed:
      'habit=mat, stolons; blade 1-5 mm; hairs=long-base; sheath=flattened; leaf arrangement=two rows; seedhead=single spike; tip=pointed',
    must: 'right',
    source: `${FNA}, Eremochloa ophiuroides; Clemson for tip and leaves`,
  },
  {
    plant: 'seashore-paspalum',
    lawn: 'bermuda',
    observed:
      'habit=stolons, rhizomes; ligule=membrane; collar=narrow, hairy; auricles=none; sheath=flattened; seedhead=pair-Y; node_hairs=no',
    must: 'right',
    source: `University of Georgia, turfgrass species; ${FNA} for head and joints`,
  },
  {
    plant: 'colonial-bent',
    lawn: 'colonial-bent',
    observed:
      'vernation=rolled; ligule=membranous; ligule 0.3-1.2 mm; sheath=round; seedhead=panicle-open; habit=clump',
    must: 'not-weed',
    source: HORTV,
  },
  {
    plant: 'creeping-bent',
    lawn: 'kbg',
    observed:
      'vernation=rolled; habit=stolons; ligule=membranous; sheath=round; hairs=none; seedhead=panicle-open; rooting=yes',
    must: 'right',
    source: HORTV,
  },
  {
    plant: 'red-fescue',
    lawn: 'kbg',
    observed:
      'base=red; sheath margin=closed; hairs=none; blade 0.7-2 mm; midrib=many ribs; seedhead=panicle-narrow; habit=rhizomes',
    must: 'right',
    source: GC,
  },
  {
    plant: 'annual-rye',
    lawn: 'bermuda',
    observed:
      'color=light green; texture=coarse; habit=bunch-type; vernation=rolled; midrib=ribbed; surface=glossy back; auricles=claw-like',
    must: 'name',
    source: 'Texas A&M AgriLife, turf weeds, annual ryegrass',
  },
  {
    plant: 'annual-rye',
    lawn: 'tall-fescue',
    observed:
      'life cycle=winter annual; habit=bunch; roots=fibrous; hairs=none; sheath margin=open; auricles=claw; ligule=membranous; seedhead=spike-flat',
    must: 'right',
    source: CLEMSON,
  },
  {
    plant: 'annual-blue',
    lawn: 'bermuda',
    observed:
      'color=light green; habit=clump; tip=boat-shaped; vernation=folded; hairs=none; blade 1-5 mm; seedhead=open panicle; ligule=membranous',
    must: 'right',
    source: 'Center for Invasive Species, Poa annua; Clemson for the ligule',
  },
  {
    plant: 'kbg',
    lawn: 'kbg',
    observed:
      'vernation=folded; sheath=flattened; auricles=absent; collar=divided; ligule 0.2-0.6 mm; blade 2-5 mm; tip=boat; midrib=two lines; color=deep green; roots=rhizomes',
    must: 'own',
    source: 'Identification of certain native and naturalized hay and pasture grasses (Canada), p. 27',
  },
  {
    plant: 'red-sorrel',
    lawn: 'kbg',
    observed:
      'leaf shape=arrow-shaped; leaf arrangement=rosette; flower=red; habit=erect; roots=rhizomes; life cycle=perennial',
    must: 'name',
    source: 'University of Illinois Extension, weed pages, red sorrel',
  },
  {
    plant: 'bittercress',
    lawn: 'tall-fescue',
    observed: 'life cycle=winter annual; leaf arrangement=rosette; leaf type=pinnate; flower=white; petals=4',
    must: 'right',
    source: 'Texas A&M AgriLife, turf weeds, hairy bittercress; four petals from UGA',
  },
  {
    plant: 'speedwell-corn',
    lawn: 'kbg',
    observed:
      'life cycle=winter annual; habit=prostrate, mat; leaves=opposite; leaf shape=egg-shaped; leaf margin=rounded teeth; hairs=all over; petiole=short; flower=blue; petals=4',
    must: 'name',
    source: MSU,
  },
  {
    plant: 'speedwell-slender',
    lawn: 'kbg',
    observed:
      'life cycle=perennial; roots at nodes=yes; leaf shape=kidney-shaped; flower=blue; petals=4; leaves=opposite; leaf margin=scalloped',
    must: 'right',
    source: MSU,
  },
  {
    plant: 'selfheal',
    lawn: 'perennial-rye',
    observed:
      'stem=square; leaf shape=oval; leaf margin=no teeth; flower=violet; petals=two lips; life cycle=perennial; leaves=opposite',
    must: 'right',
    source: 'Woodlands.co.uk, selfheal; Kwantlen Polytechnic University plant database',
  },
  {
    plant: 'violet',
    lawn: 'tall-fescue',
    observed:
      'leaf shape=heart-shaped; leaf arrangement=basal; leaf margin=wavy; flower=purple; petals=5; petiole=long',
    must: 'name',
    source: 'Wildwood Park, common blue violet',
  },
  {
    plant: 'star-bethlehem',
    lawn: 'tall-fescue',
    observed:
      'group=grass-like; leaf arrangement=tuft; midrib=white; flower=white; petals=six; roots=bulbs; no smell',
    must: 'name',
    source: 'Jackson Park wildflowers, star-of-Bethlehem, 2020',
  },
  {
    plant: 'plantain-buckhorn',
    lawn: 'perennial-rye',
    observed:
      'life cycle=perennial; leaf arrangement=rosette; leaf shape=lanceolate; hairs=none; flower=white; petals=tiny; roots=fibrous',
    must: 'right',
    source: 'University of Illinois, crop sciences, buckhorn plantain',
  },
  {
    plant: 'dayflower',
    lawn: 'st-augustine',
    observed:
      'group=other-monocot; feel=succulent; leaf shape=ovate; sheath margin=closed; petals=3; flower=purple; habit=prostrate',
    must: 'right',
    source: 'McElroy (Auburn University), spreading dayflower',
  },
  {
    plant: 'giant-foxtail',
    lawn: 'kbg',
    observed:
      'life cycle=summer annual; habit=clump; ligule=hairy; hairs=blade; blade 10-15 mm; no auricles; seedhead=foxtail; stem=round',
    must: 'name',
    source: MU,
  },
  {
    plant: 'yellow-foxtail',
    lawn: 'perennial-rye',
    observed:
      'ligule=hairy; hairs=long hairs at base; stem=flat; seedhead=bristly spike; life cycle=summer annual; habit=bunch',
    must: 'right',
    source: MU,
  },
  {
    plant: 'rice-flatsedge',
    lawn: 'bermuda',
    observed:
      'group=sedge; life cycle=annual; habit=tufted; blade 3-6 mm; seedhead=umbel; seed head color=golden; roots=fibrous',
    must: 'right',
    source: 'Flora Malesiana, Cyperus iria; USGS field characters',
  },
  {
    plant: 'english-daisy',
    lawn: 'kbg',
    observed:
      'leaf arrangement=rosette; leaf shape=spoon-shaped; petiole=long; flower=white; petals=daisy; life cycle=perennial',
    must: 'right',
    source: 'Washington State University fact sheet, English daisy, 2014',
  },
  {
    plant: 'dichondra',
    lawn: 'dichondra',
    observed:
      'leaf shape=kidney; petiole=long; habit=mat; rooting=yes; leaf type=simple; leaf margin=entire; flower=white',
    must: 'not-weed',
    source: `${GC}; Flora of North America vol. 14`,
  },
  {
    plant: 'dichondra',
    lawn: 'bermuda',
    observed:
      'habit=prostrate; rooting=yes; leaf shape=kidney; leaf arrangement=alternate; flower=white; hairs=none; leaf margin=smooth',
    must: 'right',
    source: 'Flora of Pakistan, Dichondra',
  },
  {
    plant: 'white-clover',
    lawn: 'tall-fescue',
    observed:
      'leaf type=trifoliolate; special=pale crescent; flower=white; petals=clover flower; leaf arrangement=alternate',
    must: 'name',
    source: UC,
  },
  {
    plant: 'nutsedge-yellow',
    lawn: 'zoysia-coarse',
    observed:
      'stem=triangular; leaf arrangement=three rows; roots=tubers-single; habit=rhizomes; color=yellow-green; seed head color=golden',
    must: 'name',
    source: UC,
  },
  {
    plant: 'johnsongrass',
    lawn: 'bermuda',
    observed:
      'special=midrib snaps; midrib=white; seedhead=open panicle; seed head color=reddish; life cycle=perennial; habit=rhizomes',
    must: 'name',
    source: UC,
  },
]
