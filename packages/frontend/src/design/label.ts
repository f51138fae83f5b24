import { name } from '@ohmward/quantity'

/** A name that may be left out. */
/*#__NO_SIDE_EFFECTS__*/
export const label = (meaning: string) => name({ meaning, optional: true }, 200)
