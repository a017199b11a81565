/** Who published each worked example, and where its text was read. Names of products are left out. */
export const SOURCES = {
  SL128: '"1/128 Method of Calibration", teaching slides, institution not shown, slidegur.com/doc/5284',
  ALB: 'Albany County (Wyoming) Weed & Pest District, "Calibrating Your Sprayer", albanycountyweedandpest.com/calibrating-your-sprayer.html',
  FORL: 'University extension hand-sprayer note reposted in a fruit growers list, March 2009, lists.ibiblio.org/sympa/nomenu/arc/nafex/2009-03/msg00314.html',
  OSUOKC:
    'Oklahoma State University-Oklahoma City, Turfgrass Management, "Calibrating Application Equipment" (2013), paperzz.com/doc/9245112',
  ARMY35:
    'US Army Medical Department, Subcourse MD0173, volumetric calculations, armymedical.tpub.com/MD0173',
  ARMY37:
    'US Army Medical Department, Subcourse MD0173, weight/volume calculation, armymedical.tpub.com/MD0173',
  ARMY39:
    'US Army Medical Department, Subcourse MD0173, application calculations, armymedical.tpub.com/MD0173',
  ARMY43:
    'US Army Medical Department, Subcourse MD0173, pounds of toxicant per acre, armymedical.tpub.com/MD0173',
  PMEP: 'Pesticide Management Education Program, module 17, pesticidesafety.org',
  UMN: 'University of Minnesota Extension, "How to calculate herbicide rates and calibrate herbicide applicators", extension.umn.edu',
  MT14K:
    'Montana State University Extension, MontGuide MT 2000-14 (2000), reprinted as Appendix K, scribd.com/document/421823268',
  MT14: 'Montana State University Extension, MontGuide MT 2000-14 (2000), scribd.com/document/421822868',
  PNW: 'Pacific Northwest Weed Management Handbook, "Weights and Measures" tables, pnwhandbooks.org/node/328/print',
  FOR: 'Forestry and right-of-way practice problems, slides, institution not shown, slideserve.com',
  G7510: 'University of Missouri Extension, G7510, dilution table, extension.missouri.edu/publications/g7510',
  CTP: '"Turfgrass Mathematics Review/Practice Worksheet for Certified Turfgrass Professional Testing", docplayer.net/28210450',
  NCX: 'NC State Extension (Christmas trees), "Backpack Sprayer Calibration Worksheet", christmastrees.ces.ncsu.edu/backpack-sprayer-calibration-worksheet',
  FLEX: '"Florida Pest Control Examinations" study guide, p. 213, online.flipbuilder.com/qawr/oiuo',
  PESH: 'Pesticide Environmental Stewardship (university consortium), "Hose-end Sprayer Calibration", pesticidestewardship.org',
  GRDCJ: 'GRDC (Australia), Spray Application Manual, module 7.5 "The jar test" (2025), grdc.com.au',
  OHGR: 'Ohio State University Extension measurement equivalents, reprinted in a farm weekly, farmanddairy.com/columns/all-about-grazing',
  VDWR: 'Virginia Department of Wildlife Resources, "Formulas for Determining Application Rates", dwr.virginia.gov',
  APPC: 'University extension manual, "Appendix C: Conversions and Calculations", studylib.net/doc/18745475',
  NEV: 'New England Vegetable Management Guide (land-grant consortium), dilution tables, nevegetable.org/book/export/html/244',
  NIST: 'from the exact definitions in NIST Handbook 44, Appendix C, and NIST SP 811, Appendix B',
  TNP: 'University of Tennessee Pesticide Safety Education Program, "Common Calculations", psep.tennessee.edu/common-calculations',
} as const

export type SourceId = keyof typeof SOURCES
