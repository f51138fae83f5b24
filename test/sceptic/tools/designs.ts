const asked = Number(process.env['OHMWARD_SCEPTIC'] ?? 1)

/** How many times as long: OHMWARD_SCEPTIC=20 tries twenty times as many designs, from the same seed on. */
export const times = Number.isFinite(asked) && asked >= 1 ? asked : 1

/** Whether this is the short run, whose results are kept in a file. */
export const isShort = times === 1

/** Seed of the designs; the same designs on every run. */
export const seed = Number(process.env['OHMWARD_SEED'] ?? 20261128)
