/** One file for vitest, so that the store and its schemas are loaded once for all of them. */
import './repositories/incidents.ts'
import './repositories/labels.ts'
import './repositories/people.ts'
import './repositories/places.ts'
import './repositories/sprayers.ts'
import './repositories/turns.ts'
