import { conductingIn } from '../../pulse/conducting.js'
import type { Ends } from '../../supply/place.js'
import type { Walk } from '../../walk/walk.js'

/** What a reading shows of the current of pulses of a duty, at least and at most: all of it, or the mean of what the switch makes of them. */
export const shareShown = ({ design, firmware }: Walk, duty: number): Ends =>
  design.hall.reading === 'averaged' ? conductingIn(design, firmware.edges(), duty) : { from: 1, to: 1 }

/** Largest current that must be read, A. The load's flows one way: what a two-way reading reaches the other way is none of it. */
export const largestAsked = ({ from, to }: Ends): number => (to > 0 ? to : -from)
