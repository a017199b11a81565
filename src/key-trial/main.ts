import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
console.log(key.taxa.length, key.characters.length, key.lookAlikes.length)
