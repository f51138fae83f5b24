import type { Remedies } from '@ohmward/budget'
import * as d from './drive.js'
import * as h from './heat.js'
import * as p from './parts.js'

const stronger = [
  p.transistor,
  p.regulated,
  p.drive,
  d.pullAtDrive,
  d.morePull,
  p.lessSource,
  p.largerLoad,
  p.smallerCurrent,
]
const slower = [d.moreGate, p.shorterLeads, p.transistor, p.drive]
const faster = [h.lessFrequency, d.lessGate, d.lessPull, p.drive, p.transistor]
const cooler = [
  p.transistor,
  h.copper,
  h.cooling,
  h.lessDuty,
  h.shorterBursts,
  p.parallel,
  h.lessFrequency,
  p.drive,
  d.lessGate,
  d.lessPull,
]

/** What may be changed where a row of the switch fails. */
export const remedies: Remedies = {
  'gate-drive': stronger,
  'gate-threshold': stronger,
  'gate-plateau': stronger,
  'gate-maximum': [p.regulated, p.transistor],
  'drive-supply': [p.regulated, p.drive, p.lessSource],
  'pin-current': [d.moreGate, p.drive],
  'pull-power': [d.morePull, d.ratedPull, p.drive],
  saturation: [d.lessBase, d.morePull, p.drive],
  'mean-heat': [h.moreFrequency],
  'off-level': [d.higherLevel, d.lessPull, p.drive, p.transistor],
  'reset-state': [
    d.pullThere,
    d.basePullDown,
    d.basePullUp,
    d.lessPull,
    d.lessPullDown,
    d.lessPullUp,
    p.drive,
    p.transistor,
  ],
  'contact-edge': [d.lessPull, p.transistor, p.drive],
  'contact-heat': [d.lessPull, p.transistor, p.drive, p.largerLoad, p.smallerCurrent],
  'drain-current': [p.transistor, p.parallel, p.largerLoad, p.smallerCurrent],
  'drain-voltage': slower,
  'avalanche-energy': slower,
  'freewheel-power': [p.ratedFreewheel, h.moreDuty, p.smallerCurrent, p.largerLoad],
  'on-edge': [h.lessFrequency, d.lessGate, d.lessPull, p.drive, p.transistor, h.moreDuty],
  'off-edge': [h.lessFrequency, d.lessGate, d.lessPull, p.drive, p.transistor, h.lessDuty],
  'longest-edge': [d.lessGate, d.lessPull, p.drive, p.transistor],
  'safe-area': [d.lessGate, d.lessPull, p.drive, p.transistor],
  junction: cooler,
  runaway: cooler,
  loss: cooler,
  'switching-share': faster,
}
