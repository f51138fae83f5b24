const isWriting = process.env['OHMWARD_UPDATE'] === '1'
const asked = Number(process.env['OHMWARD_SCEPTIC'] ?? (isWriting ? 1 : 0.3))
const times = Number.isFinite(asked) && asked > 0 ? asked : 0.3

/** How many designs of a block are tried: OHMWARD_SCEPTIC=1 tries a hundred, 20 two thousand, from the same seed on. */
export const count = Math.round(100 * times)

/** Seed of the designs; the same designs on every run. */
const usual = 20261128
export const seed = Number(process.env['OHMWARD_SEED'] ?? usual)

/** Whether these are the hundred designs whose results are kept in a file; fewer are the first of them, another seed's are others. */
export const isKept = count === 100 && seed === usual
export const isFewer = count < 100 && seed === usual
