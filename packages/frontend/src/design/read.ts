import { readRecord } from '@ohmward/quantity'
import { type Design, designRecord, type ReadDesign } from './record.js'

/** Reads a design. @throws InputError naming the first field that isn't allowed, with the nearest name of an unknown one */
export const readDesign = (given: Design): ReadDesign => readRecord(designRecord, given, 'design')
