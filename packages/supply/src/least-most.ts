/** The least of a list. */
export const least = (list: readonly number[]): number => list.reduce((a, b) => Math.min(a, b))

/** The most of a list. */
export const most = (list: readonly number[]): number => list.reduce((a, b) => Math.max(a, b))
