/** The same package in its newer line, installed under a name of its own where Node can run it. */
declare module 'better-sqlite3-current' {
  import Database from 'better-sqlite3'
  export default Database
}
