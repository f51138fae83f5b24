import fc from 'fast-check'

/** The same draws on every run; another seed, for a hunt: OHMWARD_SEED=7 pnpm unit. */
fc.configureGlobal({ seed: Number(process.env['OHMWARD_SEED'] ?? 20261125) })
