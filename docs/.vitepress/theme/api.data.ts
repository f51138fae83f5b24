import { entries } from '../build/reference/entries.ts'

/** A page of the reference. */
export interface Entry {
  readonly text: string
  readonly link: string
}

export declare const data: readonly Entry[]

/** The pages of the reference, in the order of the layers. */
export default {
  load: (): Entry[] => entries.map(({ page }) => ({ text: page.replace('-', ', '), link: `/api/${page}.html` })),
}
