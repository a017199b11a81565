/** Who published each example on calibration, ground, the day and efficacy, and where its text was read. */
export const SOURCES = {
  SL128: '"1/128 Method of Calibration", teaching slides, institution not shown, slidegur.com/doc/5284',
  ALB: 'Albany County (Wyoming) Weed & Pest District, "Calibrating Your Sprayer", albanycountyweedandpest.com/calibrating-your-sprayer.html',
  OSUOKC:
    'Oklahoma State University-Oklahoma City, Turfgrass Management, "Calibrating Application Equipment" (2013), paperzz.com/doc/9245112',
  ARMY: 'US Army Medical Department, Subcourse MD0173 "Pesticides in the Military", armymedical.tpub.com/MD0173',
  UMN: 'University of Minnesota Extension, "How to calculate herbicide rates and calibrate herbicide applicators", extension.umn.edu',
  MT14K:
    'Montana State University Extension, MontGuide MT 2000-14 (2000), reprinted as Appendix K, scribd.com/document/421823268',
  MT14: 'Montana State University Extension, MontGuide MT 2000-14 (2000), scribd.com/document/421822868',
  B817: 'Ohio State University Extension, Bulletin 817-00 "Calibrating Turfgrass Chemical Application Equipment", table 1, ohioline.osu.edu/b817',
  USU: 'Utah State University Extension, Horticulture/Vegetables/2014-03 "Simple No-Math Calibration of a Vegetable Boom Sprayer" (2014)',
  TPWD: 'Texas Parks & Wildlife Department, "Estimating the Size of Your Pond", tpwd.texas.gov',
  TNP: 'University of Tennessee Pesticide Safety Education Program, "Common Calculations", psep.tennessee.edu/common-calculations',
  PUGDD:
    'Purdue and Michigan State turf text on growing degree days, reprinted in a turf trade magazine (2016), turfmagazine.com',
  AGF101:
    'Ohio State University Extension, AGF-101 "Growing Degree Days as a Method of Rating the Maturity of Corn Hybrids" (2017), ohioline.osu.edu/factsheet/agf-101',
  ISU541: 'Iowa State University, Agronomy 541, lesson 2b, agron-www.agron.iastate.edu',
  MRCC: 'Midwestern Regional Climate Center, "Growing Degree Days", mrcc.illinois.edu/gismaps/info/gddinfo.htm',
  NEWA: 'Cornell University, weather network blog, on degree day reports, blogs.cornell.edu/yourenewa',
  ACES: 'Alabama Cooperative Extension, "Calibrating Sprayers Important for Gardeners", aces.edu',
  G7510: 'University of Missouri Extension, G7510, dilution table, extension.missouri.edu/publications/g7510',
  CTP: '"Turfgrass Mathematics Review/Practice Worksheet for Certified Turfgrass Professional Testing", docplayer.net/28210450',
  NCX: 'NC State Extension (Christmas trees), "Backpack Sprayer Calibration Worksheet", christmastrees.ces.ncsu.edu/backpack-sprayer-calibration-worksheet',
  FLEX: '"Florida Pest Control Examinations" study guide, p. 213, online.flipbuilder.com/qawr/oiuo',
  VAT: 'Virginia turf council pesticide course, "Size of treatment area", vaturf.org',
  UC: 'University of California ANR blog, homeowner pesticide and fertilizer calculations, ucanr.edu',
  PESH: 'Pesticide Environmental Stewardship (university consortium), "Hose-end Sprayer Calibration", pesticidestewardship.org',
  GRDCJ: 'GRDC (Australia), Spray Application Manual, module 7.5 "The jar test" (2025), grdc.com.au',
  MHF: 'Mathematics help forum thread, "Surveying calculations", mathhelpforum.com/trigonometry/126576',
  NCT: 'NC State Extension, "The Calibration of Turfgrass Boom Sprayers and Spreaders", content.ces.ncsu.edu',
  STATS:
    'help page of a general agricultural statistics library on disease progress, citing "Introduction to Plant Disease Epidemiology" (1990)',
  NCLF: 'UCAR/NCAR function page replicating FAO Irrigation & Drainage Paper 56, chapter 3, example 3, ncl.ucar.edu',
  NCLP: 'UCAR/NCAR function page replicating FAO Irrigation & Drainage Paper 56, chapter 3, example 2, ncl.ucar.edu',
  FAO: 'FAO Irrigation & Drainage Paper 56, chapter 3, example 5 (from memory)',
  JAMC: 'J. Appl. Meteor. Climatol. 50:2267 (2011), closed form of the wet bulb; figures computed by hand from its coefficients',
  HAND: 'by hand, from the formula of FAO Irrigation & Drainage Paper 56',
  GF: 'Fruit-grower trade magazine, "Calibration steps", goodfruit.com/calibration-steps',
  OKB: 'Oklahoma State University Extension, "Calibrating a Low-Pressure Ground Sprayer: Boom-Mounted Nozzles", extension.okstate.edu',
  DRM: 'Ask-a-mathematician archive, "Converting Seconds to MPH" (2000), mathforum.org/library/drmath/view/57258.html',
  UNLM: 'University of Nebraska-Lincoln, "Math for Pesticide Applicators", pested.unl.edu/math',
  ABB: 'US Department of Agriculture, Bureau of Entomology, J. Econ. Entomol. 18:265-267 (1925), scribd.com/document/263866725',
  WSU: 'Wichita State University mathematics page on the heat index, math.wichita.edu/~richardson/heatindex.html',
  NWS: 'by hand, from the regression of National Weather Service attachment SR 90-23 (1990), wpc.ncep.noaa.gov/html/heatindex_equation.shtml',
} as const

export type SourceId = keyof typeof SOURCES
