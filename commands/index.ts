import type { Command } from '#src/desk/command.ts'
import answers from './answers.ts'
import area from './area.ts'
import calibrate from './calibrate.ts'
import card from './card.ts'
import conditions from './conditions.ts'
import degrees from './degrees.ts'
import dilute from './dilute.ts'
import emergency from './emergency.ts'
import jar from './jar.ts'
import key from './key.ts'
import labelAdd from './label-add.ts'
import labelConfirm from './label-confirm.ts'
import labelList from './label-list.ts'
import labelRetire from './label-retire.ts'
import labelRevise from './label-revise.ts'
import labelShow from './label-show.ts'
import last from './last.ts'
import log from './log.ts'
import mix from './mix.ts'
import notices from './notices.ts'
import rained from './rained.ts'
import rate from './rate.ts'
import recheckDue from './recheck-due.ts'
import recheckHistory from './recheck-history.ts'
import recheckPlots from './recheck-plots.ts'
import recheckRate from './recheck-rate.ts'
import recheckSchedule from './recheck-schedule.ts'
import recordAmend from './record-amend.ts'
import recordExport from './record-export.ts'
import recordShow from './record-show.ts'
import records from './records.ts'
import setupCrew from './setup-crew.ts'
import setupMe from './setup-me.ts'
import setupNotices from './setup-notices.ts'
import setupPerson from './setup-person.ts'
import setupTool from './setup-tool.ts'
import siteAdd from './site-add.ts'
import siteArea from './site-area.ts'
import siteEdit from './site-edit.ts'
import siteList from './site-list.ts'
import siteRetire from './site-retire.ts'
import siteShow from './site-show.ts'
import sprayerAdd from './sprayer-add.ts'
import sprayerCleaned from './sprayer-cleaned.ts'
import sprayerRetire from './sprayer-retire.ts'
import sprayerShow from './sprayer-show.ts'
import stockAdd from './stock-add.ts'
import stockCount from './stock-count.ts'
import stockLow from './stock-low.ts'
import stockShow from './stock-show.ts'
import summary from './summary.ts'
import water from './water.ts'

/** Every command, in the order in which people see them. A test compares this list with the folder. */
export const commands: readonly Command[] = [
  emergency,
  mix,
  jar,
  rate,
  dilute,
  water,
  calibrate,
  area,
  conditions,
  degrees,
  log,
  recordAmend,
  key,
  recheckDue,
  recheckPlots,
  recheckRate,
  recheckHistory,
  recheckSchedule,
  card,
  notices,
  rained,
  summary,
  last,
  answers,
  records,
  recordShow,
  recordExport,
  siteShow,
  siteList,
  siteAdd,
  siteArea,
  siteEdit,
  siteRetire,
  sprayerShow,
  sprayerAdd,
  sprayerCleaned,
  sprayerRetire,
  stockShow,
  stockAdd,
  stockCount,
  stockLow,
  labelShow,
  labelList,
  labelAdd,
  labelRevise,
  labelConfirm,
  labelRetire,
  setupMe,
  setupCrew,
  setupTool,
  setupPerson,
  setupNotices,
]
