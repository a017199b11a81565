export { mixOne as mix } from './run.ts'
