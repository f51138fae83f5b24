import { checkDesign, designChanges, exampleDesign } from '@ohmward/frontend'
import { remembered } from '../../../test/tools/remembered.js'

const checkOnce = remembered(checkDesign)
const changesOnce = remembered(designChanges)

/** The check of the hot knife: one for all tests. */
export const exampleCheck = () => checkOnce(exampleDesign, { charges: 12 })

/** What can be done about the hot knife: one search for all tests. */
export const exampleChanges = () => changesOnce(exampleDesign, { checks: 60, walked: 1 })
